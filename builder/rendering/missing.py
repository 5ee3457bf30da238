"""The page that a server shows for an address that leads nowhere, however deep that address is."""

from __future__ import annotations

import re
from urllib.parse import urlsplit

from builder.rendering.page import BuildInfo, Page
from builder.rendering.templates import fill

URL = "404.html"
_OWN_LINK = re.compile(r' (href|src)="(?![#/]|[a-z]+:)')


def missing_page(info: BuildInfo) -> Page:
    """Return the page, its links relative to the site's root."""
    what = "No page of this book stands at this address."
    return Page(URL, "Not in this book", what, fill("missing.html", info=info))


def from_root(document: str, site_address: str) -> str:
    """Return a document of the site's root whose links hold at any depth.

    `site_address` is where the site stands, or "", which is taken for the top of a server.
    """
    root = urlsplit(site_address).path.rstrip("/") + "/"
    return _OWN_LINK.sub(rf' \1="{root}', document)
