"""Pages of begun jobs and the records that the book has no more: named, and no link to nowhere.

A begun job stands by the records of its day. A part, a pin or the car itself may be gone from the
book since, and with it the page that the job's sheets led to.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from posixpath import basename, dirname, join, normpath
from urllib.parse import unquote

from builder.book import FOLDERS, Book, Name
from builder.rendering.links import without_links
from builder.rendering.page import Page
from builder.rendering.site_links import lacks_name


@dataclass(frozen=True, slots=True)
class OfBook:
    """What of a book a page can lead to: its records, and the names on the pages of its cars.

    `names` are by the URL of a page, with spaces between, as `site_links` has them.
    """

    records: Mapping[Name, bool]
    names: Mapping[str, str]

    @classmethod
    def of(cls, book: Book, names: Mapping[str, str]) -> OfBook:
        """Return that of a book; `names` are those on the pages of vehicles."""
        records = {(file.kind, file.path.stem): True for file in book.files()}
        return cls(records, names)

    def lacks(self, folder: str, target: str) -> bool:
        """Whether a link from a page in a folder leads to a record or a pin that is gone."""
        path, _, fragment = target.partition("#")
        url = normpath(join(folder, unquote(path)))
        kind = FOLDERS.get(dirname(url))
        if kind is None:
            return False
        if (kind, basename(url).removesuffix(".html")) not in self.records:
            return True
        return bool(fragment and url in self.names and lacks_name(self.names[url], fragment))


def without_gone(pages: Iterable[Page], book: OfBook) -> Iterator[Page]:
    """Yield pages of a begun job without links to what the book has no more.

    Of any other job a link that leads nowhere stays, so that it is found.
    """
    for page in pages:
        lost = partial(book.lacks, dirname(page.url))
        yield replace(page, body_html=without_links(page.body_html, lost))
