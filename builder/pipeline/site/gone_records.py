"""Pages of begun jobs and the records that the book has no more: named, and no link to nowhere.

A begun job stands by the records of its day. A part, a pin or the car itself may be gone from the
book since, and with it the page that the job's sheets led to.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from posixpath import basename, dirname, join, normpath
from urllib.parse import unquote

from builder.book import FOLDERS, Book
from builder.pipeline.answers.packs import MadePack
from builder.rendering.links import PageLinks, without_links
from builder.rendering.page import Page


def without_gone(
    pages: Iterable[Page], packs: Sequence[MadePack], book: Book, written: Iterable[PageLinks]
) -> Iterator[Page]:
    """Yield pages of jobs; those of begun ones without links to what the book has no more.

    `written` are the pages of vehicles with the names on them. Of any other job a link that leads
    nowhere stays, so that it is found.
    """
    begun = [made.parts.job.id for made in packs if made.standing.begun]
    there = {(file.kind, file.path.stem) for file in book.files()}
    names = {page.url: page.names for page in written}

    def is_gone(folder: str, target: str) -> bool:
        path, _, fragment = target.partition("#")
        url = normpath(join(folder, unquote(path)))
        kind = FOLDERS.get(dirname(url))
        if kind is None:
            return False
        gone = (kind, basename(url).removesuffix(".html")) not in there
        return gone or bool(fragment and url in names and unquote(fragment) not in names[url])

    for page in pages:
        if not any(basename(page.url).startswith(id) for id in begun):
            yield page
            continue
        lost = partial(is_gone, dirname(page.url))
        yield replace(page, body_html=without_links(page.body_html, lost))
