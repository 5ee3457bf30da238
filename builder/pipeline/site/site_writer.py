"""Writing the files of a site, and keeping what the link check and the offline set need of them.

A worker writes pages and hands back their links and sums, so that nobody has to read the site
again.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from types import TracebackType
from typing import NamedTuple, Protocol

from builder.rendering import pins_csv
from builder.rendering.links import BadLink, PageLinks, page_links, style_faults
from builder.rendering.missing import from_root
from builder.rendering.page import Page
from builder.rendering.shell import Shell
from builder.rendering.site_links import LinkedPages, SiteLinks, together
from builder.rendering.standing_site import NO_SITE
from builder.rendering.writing import (
    AddressTakenError,
    WrittenFile,
    make_folders,
    new_file,
    write_files,
    write_text,
)


class WrittenPages(NamedTuple):
    """Pages that were written together: their files and their links."""

    files: list[WrittenFile]
    links: LinkedPages


class ListedPages(NamedTuple):
    """The same, with the title and the description that each is found by."""

    pages: WrittenPages
    words: list[tuple[str, str]]

    @property
    def found_by(self) -> list[Page]:
        """The pages without their bodies, for who asks for titles and addresses."""
        named = zip(self.pages.files, self.words, strict=True)
        return [Page(file.url, *words, "") for file, words in named]


class TakenOver(Protocol):
    """A site of which files can be taken over as they are."""

    def take(self, files: Iterable[WrittenFile], into: Path) -> bool:
        """Take over all of these files into a folder, or none; False when one is not there."""


@dataclass(slots=True)
class SiteWriter:
    """Writes under `folder` and remembers what was written, in this process or by workers."""

    folder: Path
    shell: Shell
    standing: TakenOver = NO_SITE  # what it has of the new site is taken over
    files: list[WrittenFile] = field(default_factory=list)
    links: SiteLinks = field(default_factory=SiteLinks)
    style_faults: list[BadLink] = field(default_factory=list)
    _taken: set[str] = field(default_factory=set)

    def take_in(self, files: Iterable[WrittenFile]) -> None:
        """Remember files that were written.

        Raises:
            AddressTakenError: on a disk that takes A and a for one, two are at one address.
        """
        for file in files:
            plain = file.url if file.url.isascii() else unicodedata.normalize("NFC", file.url)
            address = plain.casefold()
            if address in self._taken:
                raise AddressTakenError.at(file.url)
            self._taken.add(address)
            self.files.append(file)

    def written(self, pages: Iterable[Page]) -> WrittenPages:
        """Write pages, whose folders exist; the caller remembers them."""
        done = [self._written(page) for page in pages]
        return WrittenPages([file for file, _ in done], together([links for _, links in done]))

    def _written(self, page: Page) -> tuple[WrittenFile, PageLinks]:
        document = self.shell.pour(page)
        return self.written_text(page.url, document), page_links(page.url, document)

    def listed(self, pages: Iterable[Page]) -> ListedPages:
        """Write pages as `written` does, and say by which words each is found."""
        listed = list(pages)
        return ListedPages(self.written(listed), [(p.title, p.description) for p in listed])

    def written_text(self, url: str, text: str) -> WrittenFile:
        """Write one file whose folder exists; the caller takes it in."""
        return write_text(self.folder, url, text, self.is_taken)

    def is_taken(self, file: WrittenFile) -> bool:
        """Take one file over from the site that stands, where it has the same."""
        return self.standing.take([file], self.folder)

    def remember(self, pages: WrittenPages) -> None:
        """Take in pages that a worker wrote."""
        self.take_in(pages.files)
        self.links.take_in(pages.links)

    def write_pages(self, pages: Iterable[Page]) -> ListedPages:
        """Write pages and remember them."""
        listed = list(pages)
        make_folders(self.folder, (page.url for page in listed))
        written = self.listed(listed)
        self.remember(written.pages)
        return written

    def take_over(self, pages: WrittenPages) -> bool:
        """Remember pages that the site which stands has; False when it does not have them all."""
        make_folders(self.folder, (file.url for file in pages.files))
        there = self.standing.take(pages.files, self.folder)
        if there:
            self.remember(pages)
        return there

    def write_missing(self, page: Page, site_address: str) -> None:
        """Write the page for addresses that lead nowhere; its links are checked as if at home."""
        document = self.shell.pour(page)
        file = self.written_text(page.url, from_root(document, site_address))
        self.remember(WrittenPages([file], together([page_links(page.url, document)])))

    def write_files(self, files: Iterable[tuple[str, bytes]]) -> list[WrittenFile]:
        """Write files given as (relative path, content); pages and styles among them are read."""
        listed = list(files)
        written = write_files(self.folder, listed, self.is_taken)
        self.take_in(written)
        for url, content in listed:
            if url.endswith(".html"):
                self.links.take_in(together([page_links(url, content.decode())]))
            elif url.endswith(".css"):
                self.style_faults += style_faults(url, content.decode())
        return written

    @property
    def pages(self) -> int:
        """How many pages the site has by now."""
        return self.links.pages

    def broken_links(self) -> list[BadLink]:
        """Every link of the site that must not be published."""
        return self.links.bad(file.url for file in self.files) + self.style_faults


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
