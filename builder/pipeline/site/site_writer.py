"""Writing the files of a site, and keeping what the link check and the offline set need of them.

A worker writes pages and hands back their links and sums, so that nobody has to read the site
again.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from types import TracebackType
from typing import NamedTuple

from builder.rendering import pins_csv
from builder.rendering.links import BadLink, PageLinks, again, bad_links, page_links, style_faults
from builder.rendering.missing import from_root
from builder.rendering.page import Page
from builder.rendering.shell import Shell
from builder.rendering.standing_site import NO_SITE, StandingSite
from builder.rendering.writing import (
    AddressTakenError,
    WrittenFile,
    make_folders,
    new_file,
    write_files,
    write_text,
)


class WrittenPage(NamedTuple):
    """A page as it was written: its file and its links."""

    file: WrittenFile
    links: PageLinks


class ListedPage(NamedTuple):
    """A page as it was written, and by which words it is found."""

    page: WrittenPage
    title: str
    description: str

    @property
    def found_by(self) -> Page:
        """The page without its body, for who asks for title and address."""
        return Page(self.page.file.url, self.title, self.description, "")


@dataclass(slots=True)
class SiteWriter:
    """Writes under `folder` and remembers what was written, in this process or by workers."""

    folder: Path
    shell: Shell
    standing: StandingSite = NO_SITE  # what it has of the new site is taken over
    files: list[WrittenFile] = field(default_factory=list)
    links: list[PageLinks] = field(default_factory=list)
    style_faults: list[BadLink] = field(default_factory=list)
    _taken: set[str] = field(default_factory=set)

    def take_in(self, files: Iterable[WrittenFile]) -> None:
        """Remember files that were written.

        Raises:
            AddressTakenError: on a disk that takes A and a for one, two are at one address.
        """
        for file in files:
            address = unicodedata.normalize("NFC", file.url).casefold()
            if address in self._taken:
                raise AddressTakenError.at(file.url)
            self._taken.add(address)
            self.files.append(file)

    def written(self, page: Page) -> WrittenPage:
        """Write one page, whose folder exists; the caller remembers it."""
        document = self.shell.pour(page)
        file = self.written_text(page.url, document)
        return WrittenPage(file, page_links(page.url, document))

    def listed(self, page: Page) -> ListedPage:
        """Write one page as `written` does, and say by which words it is found."""
        return ListedPage(self.written(page), page.title, page.description)

    def written_text(self, url: str, text: str) -> WrittenFile:
        """Write one file whose folder exists; the caller takes it in."""
        return write_text(self.folder, url, text, self.is_taken)

    def is_taken(self, file: WrittenFile) -> bool:
        """Take one file over from the site that stands, where it has the same."""
        return self.standing.take([file], self.folder)

    def remember(self, pages: Iterable[WrittenPage]) -> None:
        """Take in pages that a worker wrote."""
        for page in pages:
            self.take_in([page.file])
            self.links.append(again(page.links))

    def write_pages(self, pages: Iterable[Page]) -> list[WrittenPage]:
        """Write pages and remember them."""
        listed = list(pages)
        make_folders(self.folder, (page.url for page in listed))
        written = [self.written(page) for page in listed]
        self.remember(written)
        return written

    def take_over(self, pages: Sequence[WrittenPage]) -> bool:
        """Remember pages that the site which stands has; False when it does not have them all."""
        make_folders(self.folder, (page.file.url for page in pages))
        there = self.standing.take((page.file for page in pages), self.folder)
        if there:
            self.remember(pages)
        return there

    def write_missing(self, page: Page, site_address: str) -> None:
        """Write the page for addresses that lead nowhere; its links are checked as if at home."""
        document = self.shell.pour(page)
        file = self.written_text(page.url, from_root(document, site_address))
        self.remember([WrittenPage(file, page_links(page.url, document))])

    def write_files(self, files: Iterable[tuple[str, bytes]]) -> None:
        """Write files given as (relative path, content); pages and styles among them are read."""
        listed = list(files)
        self.take_in(write_files(self.folder, listed, self.is_taken))
        for url, content in listed:
            if url.endswith(".html"):
                self.links.append(page_links(url, content.decode()))
            elif url.endswith(".css"):
                self.style_faults += style_faults(url, content.decode())

    @property
    def pages(self) -> int:
        """How many pages the site has by now."""
        return len(self.links)

    def broken_links(self) -> list[BadLink]:
        """Every link of the site that must not be published."""
        return bad_links(self.links, (file.url for file in self.files)) + self.style_faults


class PinTable:
    """The table of all pins, written row by row, so that it never stands in memory whole."""

    def __init__(self, folder: Path) -> None:
        self._file = new_file(folder, pins_csv.URL)
        self._sum = sha256()
        self._size_bytes = 0

    def __enter__(self) -> PinTable:
        self.add(pins_csv.header())
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._file.close()

    def add(self, lines: str) -> None:
        """Append whole rows."""
        content = lines.encode()
        self._file.write(content)
        self._sum.update(content)
        self._size_bytes += len(content)

    @property
    def written(self) -> WrittenFile:
        """The file as it is by now."""
        return WrittenFile(pins_csv.URL, self._size_bytes, self._sum.hexdigest())
