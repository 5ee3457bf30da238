"""Links of the built site: each leads somewhere in it, and nothing is asked of another origin."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from posixpath import dirname, join, normpath
from typing import NamedTuple
from urllib.parse import unquote

# All HTML here is ours: attributes are in double quotes, and text never holds a bare `<`.
_TAG = re.compile(r"<([a-zA-Z][a-zA-Z0-9]*)((?:[^<>\"]|\"[^\"]*\")*)>")
_ATTRIBUTE = re.compile(r"\s(id|href|src|srcset|poster|action|data|xlink:href)=\"([^\"]*)\"")
_SCHEME = re.compile(r"^[a-zA-Z][a-zA-Z0-9+.-]*:|^//")
_STYLE_URL = re.compile(r"@import\s+[\"']?([^\"';)]+)|url\(\s*[\"']?([^\"')\s]+)")
_MAY_LEAVE = ("http://", "https://")


class PageLinks(NamedTuple):
    """What one page offers and asks for: its fragment names and its distinct targets."""

    url: str
    names: frozenset[str]
    targets: frozenset[tuple[str, str]]  # (element, href or src as written)


class BadLink(NamedTuple):
    """A link that must not be published: the page, the target as written, what is wrong."""

    page: str
    target: str
    message: str


def page_links(url: str, document: str) -> PageLinks:
    """Return the links of one HTML document that stands at `url` of the site."""
    names: set[str] = set()
    targets: set[tuple[str, str]] = set()
    for tag in _TAG.finditer(document):
        attributes = tag[2]
        if "=" not in attributes:
            continue
        for name, value in _ATTRIBUTE.findall(attributes):
            if name == "id":
                names.add(html.unescape(value))
            else:
                targets.add((tag[1].lower(), html.unescape(value)))
    return PageLinks(url, frozenset(names), frozenset(targets))


def bad_links(pages: Iterable[PageLinks], files: Iterable[str]) -> list[BadLink]:
    """Return every broken or foreign link of `pages`; `files` are all paths of the site."""
    by_url = {page.url: page for page in pages}
    known = frozenset(files)
    found = [bad for page in by_url.values() for bad in _bad_of(page, by_url, known)]
    return sorted(found)


def _bad_of(
    page: PageLinks, pages: Mapping[str, PageLinks], files: frozenset[str]
) -> Iterator[BadLink]:
    for element, target in page.targets:
        message = _fault(page.url, element, target, pages, files)
        if message:
            yield BadLink(page.url, target, message)


def _fault(
    url: str, element: str, target: str, pages: Mapping[str, PageLinks], files: frozenset[str]
) -> str | None:
    if _SCHEME.match(target):
        leaves = element == "a" and target.startswith(_MAY_LEAVE)
        return None if leaves else "leads to another origin or scheme"
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
