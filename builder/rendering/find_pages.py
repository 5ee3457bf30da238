"""What the search field finds beside cars and their pins: pages, by the words of their titles."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Sequence
from typing import Final

from builder.rendering.page import Page
from builder.rendering.script_data import script_json

PAGES_URL = "assets/find-pages.js"
FINDER_SCRIPTS = (
    "assets/finder-data.js",
    PAGES_URL,
    "assets/finder-words.js",
    "assets/finder-book.js",
    "assets/finder-said.js",
    "assets/finder-pages.js",
    "assets/finder-answers.js",
    "assets/plug-face.js",
    "assets/pin-card.js",
    "assets/finder-cards.js",
    "assets/finder-path.js",
    "assets/finder.js",
)
"""What the field needs, in this order; every page fetches it when somebody turns to the field."""

KINDS = {
    "jobs": "job",
    "converters": "converter",
    "amplifiers": "amplifier",
    "cables": "cable",
    "looms": "loom",
    "interfaces": "interface",
    "housings": "housing",
    "contributors": "contributor",
    "prove": "proof card",
    "rules": "rule",
    "handbook": "handbook",
    "schema": "record",
}
"""What a page of each folder is called in an answer. Cars are found by their pins, plans by
car and converter."""
_LIST: Final = "index.html"  # of a folder
_RULES: Final = "rules"  # whose titles are ids: what they say is asked for
_TITLE = re.compile(r"<h1[^>]*>(.*?)</h1>", re.S)
_TAG = re.compile(r"<[^>]+>")


def find_pages_script(pages: Iterable[Page], shell_files: Sequence[tuple[str, bytes]]) -> bytes:
    """Return the script with a row for each page that can be found: kind, title, address, words.

    `shell_files` are those of the shell, of which the handbook's pages are found too.
    """
    rows = [*map(_row, pages), *(_handbook_row(*file) for file in shell_files)]
    order = list(KINDS)
    found = sorted((row for row in rows if row), key=lambda row: (order.index(row[0]), row[1]))
    return f"window.loombookFindPages={script_json([list(KINDS.items()), found])};\n".encode()


def _row(page: Page) -> tuple[str, str, str, str] | None:
    folder, _, name = page.url.rpartition("/")
    if folder not in KINDS or name == _LIST:
        return None
    return folder, page.title, page.url, page.description if folder == _RULES else ""


def _handbook_row(url: str, content: bytes) -> tuple[str, str, str, str] | None:
    title = _TITLE.search(content.decode("utf-8")) if url.startswith("handbook/") else None
    return ("handbook", html.unescape(_TAG.sub("", title[1])), url, "") if title else None
