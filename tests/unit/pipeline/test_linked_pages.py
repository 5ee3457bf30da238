"""Nobody has to know an address: each page of the site is led to, and of a kind that is tested."""

from __future__ import annotations

from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import pytest
from page_kinds import PAGES
from shipped_book import FOLDERS_OF_PARTS, PINOUTS

from builder.book import open_book
from builder.pipeline.site.moved_pages import moved_pages
from builder.rendering import missing, offline
from builder.rendering.links import page_links

PART_LISTS = {*FOLDERS_OF_PARTS}
"""Their lists are made as that of the housings is."""
SHOWN_INSTEAD = {missing.URL, offline.NOT_SAVED_URL}
"""What a server or a worker shows in the place of another page."""


@pytest.fixture(scope="module")
def links(shipped_site: Path) -> dict[str, set[str]]:
    """The pages that each page of the site leads to."""
    found = {}
    for path in sorted(shipped_site.rglob("*.html")):
        url = path.relative_to(shipped_site).as_posix()
        targets = page_links(url, path.read_text("utf-8")).targets
        found[url] = {led_to(url, target) for target in targets} - {url}
    return found


def led_to(url: str, target: str) -> str:
    path = unquote(target.partition("#")[0].partition("?")[0])
    whole = normpath(join(dirname(url), path)) if path else url
    return f"{whole}/index.html".removeprefix("./") if path.endswith("/") else whole


def reached(links: dict[str, set[str]], start: str) -> set[str]:
    """Every page that somebody comes to who begins at one and follows links."""
    known, waiting = {start}, [start]
    while waiting:
        new = (links[waiting.pop()] & links.keys()) - known
        known |= new
        waiting += new
    return known


def test_every_page_is_reached_from_the_first(links: dict[str, set[str]]) -> None:
    """But for those that other books and printed sheets lead to by an old name."""
    found = reached(links, "index.html")
    moved = {url for url, _ in moved_pages(open_book(PINOUTS).renamed, found)}
    assert links.keys() - found == SHOWN_INSTEAD | moved


def kind_of(url: str) -> str:
    """The pages of a folder are of one kind, its index of another; those at the top are each."""
    folder = dirname(url)
    if folder in PART_LISTS and url.endswith("/index.html"):
        return "housings/index.html"
    return folder if folder and not url.endswith("/index.html") else url


def test_every_page_is_of_a_kind_that_is_tested_in_a_browser(links: dict[str, set[str]]) -> None:
    assert {kind_of(url) for url in links} - {kind_of(url) for url in PAGES} == set()


def test_every_kind_that_is_tested_is_a_page_of_the_site(links: dict[str, set[str]]) -> None:
    assert set(PAGES) <= links.keys()


def test_a_page_without_a_link_is_found() -> None:
    links = {"index.html": {"a/b.html", "x.css"}, "a/b.html": {"index.html"}, "a/c.html": set()}
    assert links.keys() - reached(links, "index.html") == {"a/c.html"}
    assert led_to("a/b.html", "../index.html#x") == "index.html"
    assert led_to("a/b.html", "../prove/") == "prove/index.html"
