"""Links of the built site: each leads somewhere in it, and nothing is asked of another origin."""

from __future__ import annotations

import html
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from posixpath import dirname, join, normpath
from typing import NamedTuple
from urllib.parse import unquote

# All HTML here is ours: attributes stand in double quotes after one space, and escaped text
# holds no double quote. One plain search over bytes takes a tenth of taking tags apart.
_LINKED = re.compile(rb' (href|src|id)="([^"\n]*)"')
_HINTS = (b"//", b"script:")
"""Without one of these a page asks no other origin, whatever attribute it would use."""
_TAG = re.compile(r"<([a-zA-Z][a-zA-Z0-9]*)((?:[^<>\"']|\"[^\"]*\"|'[^']*')*)>")
_ATTRIBUTE = re.compile(r"([^\s\"'<>/=]+)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([^\s\"'=<>`]+)))?")
_ASKING = frozenset({"href", "src", "srcset", "poster", "action", "data", "formaction", "ping"})
_ASKING |= {"xlink:href", "background"}
_SCHEME = re.compile(r"^[a-zA-Z][a-zA-Z0-9+.-]*:|^//")
_STYLE_URL = re.compile(r"@import\s+[\"']?([^\"';)]+)|url\(\s*[\"']?([^\"')\s]+)")
_MAY_LEAVE = ("http://", "https://", "mailto:")


class PageLinks(NamedTuple):
    """What one page offers and asks for: its fragment names and its distinct targets.

    `targets` leave the page; `lost` are fragments of its own that it does not have. `foreign`
    are the targets with a scheme or another host that a page must not have.
    """

    url: str
    names: tuple[str, ...]
    targets: tuple[str, ...]
    lost: tuple[str, ...]
    foreign: tuple[str, ...]


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
    inside = {target for target in targets if not _SCHEME.match(target)}
    own = {target for target in inside if target.startswith("#")}
    lost = (target for target in own if len(target) > 1 and unquote(target[1:]) not in names)
    doubtful = len(inside) < len(targets) or any(hint in raw for hint in _HINTS)
    foreign = _foreign(document) if doubtful else frozenset()
    return PageLinks(url, *map(_in_order, (names, inside - own, lost, foreign)))


def _in_order(words: Iterable[str]) -> tuple[str, ...]:
    """The words once in memory, however many pages have them: a book has ten thousands."""
    return tuple(map(sys.intern, sorted(words)))


def again(links: PageLinks) -> PageLinks:
    """Return links that came from another process, or from a row, as they are kept in this one."""
    return PageLinks(links.url, *map(_in_order, links[1:]))


def _plain(values: Iterable[bytes]) -> frozenset[str]:
    # Most pages have no entity in any attribute: asked once for all, that costs nothing.
    text = b"\n".join(values).decode()
    if "&" not in text:
        return frozenset(text.split("\n")) if text else frozenset()
    return frozenset(html.unescape(value) for value in text.split("\n"))


def _foreign(document: str) -> frozenset[str]:
    """Targets that leave the site, links for a person to follow apart.

    Whole attributes are read, so that words inside one (a description) are not taken for another.
    """
    return frozenset(
        target
        for element, inside in _TAG.findall(document)
        if ":" in inside or "//" in inside
        for name, *values in _ATTRIBUTE.findall(inside)
        if name.lower() in _ASKING
        and _SCHEME.match(target := html.unescape("".join(values)).strip())
        and not (element.lower() == "a" and target.startswith(_MAY_LEAVE))
    )


def bad_links(pages: Iterable[PageLinks], files: Iterable[str]) -> list[BadLink]:
    """Return every broken or foreign link of `pages`; `files` are all paths of the site."""
    by_url = {page.url: page for page in pages}
    known = frozenset(files)
    places: _Places = {}
    found = [bad for page in by_url.values() for bad in _bad_of(page, by_url, known, places)]
    return sorted(found)


_Places = dict[tuple[str, str], tuple[str, str | None]]
"""By folder and target without its fragment: the path it leads to, and what is wrong with it.

Thousands of pages of one folder share most of their targets, so each is worked out once.
"""


def _bad_of(
    page: PageLinks, pages: Mapping[str, PageLinks], files: frozenset[str], places: _Places
) -> Iterator[BadLink]:
    for target in page.foreign:
        yield BadLink(page.url, target, "leads to another origin or scheme")
    for target in page.lost:
        yield BadLink(page.url, target, _NO_FRAGMENT)
    folder = dirname(page.url)
    for target in page.targets:
        path, _, fragment = target.partition("#")
        key = (folder, path)
        if key not in places:
            places[key] = _led_to(page.url, path, files)
        place, message = places[key]
        if message is None and fragment:
            message = _fragment_fault(place, fragment, pages)
        if message:
            yield BadLink(page.url, target, message)


_NO_FRAGMENT = "names a fragment that is not on that page"


def _led_to(url: str, path: str, files: frozenset[str]) -> tuple[str, str | None]:
    place = normpath(join(dirname(url), unquote(path))) if path else url
    if place.startswith(("..", "/")):
        return place, "leads out of the site"
    return place, None if place in files else "leads to a file that is not there"


def _fragment_fault(place: str, fragment: str, pages: Mapping[str, PageLinks]) -> str | None:
    there = pages.get(place)
    lost = there is not None and unquote(fragment) not in there.names
    return _NO_FRAGMENT if lost else None


def style_faults(url: str, style: str) -> list[BadLink]:
    """Return what a style sheet asks of another origin; `data:` images are its own."""
    asked = [first or second for first, second in _STYLE_URL.findall(style)]
    return [
        BadLink(url, target, "asks another origin")
        for target in asked
        if _SCHEME.match(target) and not target.startswith("data:")
    ]


_LINK = re.compile(r'<a\b[^>]* href="([^"\n]*)"[^>]*>(.*?)</a>', re.DOTALL)


def without_links(body: str, lost: Callable[[str], bool]) -> str:
    """Return HTML of ours in which what leads to a lost target is words alone.

    >>> without_links('<a href="x.html">X</a>, <a href="y.html">Y</a>', "x.html".__eq__)
    'X, <a href="y.html">Y</a>'
    """

    def kept(found: re.Match[str]) -> str:
        return found[2] if lost(html.unescape(found[1])) else found[0]

    return _LINK.sub(kept, body)


def in_words(found: Iterable[BadLink]) -> list[str]:
    """Return one sentence for each bad link."""
    return [f'{bad.page}: "{bad.target}" {bad.message}' for bad in found]
