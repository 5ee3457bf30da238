"""The links of a whole site: who writes pages settles those among them, the rest is settled here.

A vehicle's pages are written together, and lead most of all to each other and to what every page
leads to. What is left to be looked at of thousands of vehicles are the few addresses that they lead
to outside: each is kept once, with one page that has it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from posixpath import dirname, join, normpath
from typing import NamedTuple
from urllib.parse import unquote

from builder.rendering.links import BadLink, PageLinks

_NO_FRAGMENT = "names a fragment that is not on that page"


class LinkedPages(NamedTuple):
    """What pages that were written together offer, ask for elsewhere, and must not be published.

    `names` are of each page its URL and its fragment names, with spaces between. `asked` are
    targets as written that leave these pages, each under the first page of its folder that has it.
    """

    names: tuple[tuple[str, str], ...]
    asked: tuple[tuple[str, tuple[str, ...]], ...]
    bad: tuple[BadLink, ...]


def together(pages: Sequence[PageLinks]) -> LinkedPages:
    """Settle the links of pages among each other."""
    names = {page.url: " ".join(page.names) for page in pages}
    bad = [fault for page in pages for fault in _faults_alone(page)]
    asked, seen = [], set[tuple[str, str]]()
    for page in sorted(pages):
        folder, leaving = dirname(page.url), []
        for target in page.targets:
            if (folder, target) in seen:
                continue
            seen.add((folder, target))
            place, fragment = _led_to(folder, target)
            if place not in names:
                leaving.append(target)
            elif lacks_name(names[place], fragment):
                bad.append(BadLink(page.url, target, _NO_FRAGMENT))
        if leaving:
            asked.append((page.url, tuple(leaving)))
    return LinkedPages(tuple(names.items()), tuple(asked), tuple(bad))


def _faults_alone(page: PageLinks) -> Iterator[BadLink]:
    for target in page.foreign:
        yield BadLink(page.url, target, "leads to another origin or scheme")
    for target in page.lost:
        yield BadLink(page.url, target, _NO_FRAGMENT)


@lru_cache(maxsize=100_000)
def _led_to(folder: str, target: str) -> tuple[str, str]:
    """The path that a target written in a folder leads to, and the fragment there."""
    path, _, fragment = target.partition("#")
    return normpath(join(folder, unquote(path))), fragment


def lacks_name(names: str, fragment: str) -> bool:
    """Whether a target names a fragment, as it is written in a link, that a page has not."""
    return bool(fragment) and unquote(fragment) not in names.split(" ")


class SiteLinks:
    """What all pages of a site offer and ask for, taken in as they are written."""

    def __init__(self) -> None:
        self._names: dict[str, str] = {}
        self._asked: defaultdict[str, dict[str, str]] = defaultdict(dict)
        """By folder and target, the first page that has it."""
        self._bad: list[BadLink] = []

    def take_in(self, pages: LinkedPages) -> None:
        """Remember pages that were written together."""
        self._names.update(pages.names)
        self._bad += pages.bad
        for url, targets in pages.asked:
            asked = self._asked[dirname(url)]
            for target in targets:
                if target not in asked or url < asked[target]:
                    asked[target] = url

    @property
    def pages(self) -> int:
        """How many pages there are by now."""
        return len(self._names)

    @property
    def names(self) -> Mapping[str, str]:
        """The fragment names on each page by its URL, with spaces between."""
        return self._names

    def bad(self, files: Iterable[str]) -> list[BadLink]:
        """Return every link that must not be published; `files` are all paths of the site.

        Of a target that several pages of a folder have, the first in order is named.
        """
        return sorted((*self._bad, *self._lost(frozenset(files))))

    def _lost(self, files: frozenset[str]) -> Iterator[BadLink]:
        asked = ((f, t, url) for f, pages in self._asked.items() for t, url in pages.items())
        for folder, target, url in asked:
            place, fragment = _led_to(folder, target)
            if place.startswith(("..", "/")):
                yield BadLink(url, target, "leads out of the site")
            elif place not in files:
                yield BadLink(url, target, "leads to a file that is not there")
            elif place in self._names and lacks_name(self._names[place], fragment):
                yield BadLink(url, target, _NO_FRAGMENT)
