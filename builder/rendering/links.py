"""Links of the built site: each leads somewhere in it, and nothing is asked of another origin."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterable
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
    own = {target for target in inside if target.startswith("#") or not target}
    lost = (target for target in own if len(target) > 1 and unquote(target[1:]) not in names)
    doubtful = len(inside) < len(targets) or any(hint in raw for hint in _HINTS)
    foreign = _foreign(document) if doubtful else frozenset()
    return PageLinks(url, *map(_in_order, (names, inside - own, lost, foreign)))


def _in_order(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(words))


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
