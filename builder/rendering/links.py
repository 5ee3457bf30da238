"""Links of the built site: each leads somewhere in it, and nothing is asked of another origin."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from posixpath import dirname, join, normpath
from typing import NamedTuple
from urllib.parse import unquote

# All HTML here is ours: attributes stand in double quotes after one space, and escaped text
# holds no double quote. One plain search over bytes takes a tenth of taking tags apart.
_LINKED = re.compile(rb' (href|src|id)="([^"]*)"')
_HINTS = (b"//", b"script:")
"""Without one of these a page asks no other origin, whatever attribute it would use."""
_ANY_TARGET = re.compile(
    r"<([a-zA-Z][a-zA-Z0-9]*)\b[^<>]*?\s"
    r"(?:href|src|srcset|poster|action|data|xlink:href|formaction|ping)\s*=\s*[\"']?([^\"'\s>]*)"
)
_SCHEME = re.compile(r"^[a-zA-Z][a-zA-Z0-9+.-]*:|^//")
_STYLE_URL = re.compile(r"@import\s+[\"']?([^\"';)]+)|url\(\s*[\"']?([^\"')\s]+)")
_MAY_LEAVE = ("http://", "https://")


class PageLinks(NamedTuple):
    """What one page offers and asks for: its fragment names and its distinct targets.

    `foreign` are the targets with a scheme or another host that a page must not have.
    """

    url: str
    names: frozenset[str]
    targets: frozenset[str]
    foreign: frozenset[str]


class BadLink(NamedTuple):
    """A link that must not be published: the page, the target as written, what is wrong."""

    page: str
    target: str
    message: str


def page_links(url: str, document: str) -> PageLinks:
    """Return the links of one HTML document that stands at `url` of the site."""
    raw = document.encode()
    found = set(_LINKED.findall(raw))
    names = _plain(value for attribute, value in found if attribute == b"id")
    targets = _plain(value for attribute, value in found if attribute != b"id")
    inside = frozenset(target for target in targets if not _SCHEME.match(target))
    doubtful = len(inside) < len(targets) or any(hint in raw for hint in _HINTS)
    foreign = _foreign(document) if doubtful else frozenset()
    return PageLinks(url, names, inside, foreign)


def _plain(values: Iterable[bytes]) -> frozenset[str]:
    return frozenset(html.unescape(value.decode()) for value in values)


def _foreign(document: str) -> frozenset[str]:
    """Targets that leave the site, links for a person to follow apart."""
    return frozenset(
        target
        for element, raw in _ANY_TARGET.findall(document)
        if _SCHEME.match(target := html.unescape(raw))
        and not (element.lower() == "a" and target.startswith(_MAY_LEAVE))
    )


def bad_links(pages: Iterable[PageLinks], files: Iterable[str]) -> list[BadLink]:
    """Return every broken or foreign link of `pages`; `files` are all paths of the site."""
    by_url = {page.url: page for page in pages}
    known = frozenset(files)
    found = [bad for page in by_url.values() for bad in _bad_of(page, by_url, known)]
    return sorted(found)


def _bad_of(
    page: PageLinks, pages: Mapping[str, PageLinks], files: frozenset[str]
) -> Iterator[BadLink]:
    for target in page.foreign:
        yield BadLink(page.url, target, "leads to another origin or scheme")
    for target in page.targets:
        message = _fault(page.url, target, pages, files)
        if message:
            yield BadLink(page.url, target, message)


def _fault(
    url: str, target: str, pages: Mapping[str, PageLinks], files: frozenset[str]
) -> str | None:
    path, _, fragment = target.partition("#")
    place = normpath(join(dirname(url), unquote(path))) if path else url
    if place.startswith(("..", "/")):
        return "leads out of the site"
    if place not in files:
        return "leads to a file that is not there"
    there = pages.get(place)
    if fragment and there is not None and unquote(fragment) not in there.names:
        return "names a fragment that is not on that page"
    return None


def style_faults(url: str, style: str) -> list[BadLink]:
    """Return what a style sheet asks of another origin; `data:` images are its own."""
    asked = [first or second for first, second in _STYLE_URL.findall(style)]
    return [
        BadLink(url, target, "asks another origin")
        for target in asked
        if _SCHEME.match(target) and not target.startswith("data:")
    ]


def check_links(site: Path) -> list[str]:
    """Return one sentence for each bad link of a built site; empty when all is well."""
    return [f'{bad.page}: "{bad.target}" {bad.message}' for bad in check_folder(site)]


def check_folder(site: Path) -> list[BadLink]:
    """Return the bad links of a whole built site on disk."""
    files = sorted(path for path in site.rglob("*") if path.is_file())
    names = [path.relative_to(site).as_posix() for path in files]
    pages = [
        page_links(name, path.read_text(encoding="utf-8"))
        for name, path in zip(names, files, strict=True)
        if name.endswith(".html")
    ]
    styles = [
        bad
        for name, path in zip(names, files, strict=True)
        if name.endswith(".css")
        for bad in style_faults(name, path.read_text(encoding="utf-8"))
    ]
    return bad_links(pages, names) + styles
