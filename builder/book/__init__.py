"""A book: folders of records and the settings that hold them together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from builder.book.ownership import lenders_of, own_roots
from builder.book.record_files import (
    FOLDERS,
    TEMPLATE,
    Name,
    RecordFile,
    Root,
    Visibility,
    every_file_of,
    files_of,
    shown_path,
)
from builder.book.settings import (
    OTHER_SETTINGS_FILE,
    ROOT_MISSING,
    SETTINGS_FILE,
    BookNotFoundError,
    read_settings,
    settings_file,
)
from builder.findings import Finding
from builder.model.house_defaults import HouseDefaults

__all__ = [
    "FOLDERS",
    "OTHER_SETTINGS_FILE",
    "ROOT_MISSING",
    "SETTINGS_FILE",
    "TEMPLATE",
    "Book",
    "BookNotFoundError",
    "Name",
    "RecordFile",
    "Root",
    "Visibility",
    "holds_book",
    "open_book",
    "settings_file",
    "shown_path",
]


@dataclass(frozen=True, slots=True)
class Book:
    """A folder of records with its settings.

    `public` leaves every private root out: the book is then what everybody may see. `as_of` is
    the day it is looked at (YYYY-MM-DD), "" for the day of its newest record: nothing but the
    command line reads a clock, so that the same book gives the same site.
    """

    folder: Path
    site_name: str
    roots: tuple[Root, ...]
    defaults: HouseDefaults
    findings: tuple[Finding, ...]  # about the settings file itself
    report_address: str = ""  # template of the address that reports go to, "" for none
    site_address: str = ""  # where the built site will stand, https; "" when nobody said
    public: bool = False
    data_licence: str = ""  # terms for the use of the records, "" when nobody said
    as_of: str = ""

    def files(self) -> list[RecordFile]:
        """Every record file, templates included, in an order that does not depend on the disk."""
        return files_of(self.roots, self.public)

    def every_file(self) -> list[RecordFile]:
        """The same with the shared records in whose place private ones stand."""
        return every_file_of(self.roots, self.public)

    @property
    def own_roots(self) -> list[Root]:
        """The roots that new records may go to; the others belong to a book kept by others."""
        return own_roots(self.folder, self.roots)

    def lenders(self, paths: Iterable[Path]) -> dict[Path, Path | None]:
        """The folder of the shared book that each record file belongs to, None for an own one."""
        return lenders_of(self.folder, self.roots, paths)

    def lender_of(self, path: Path) -> Path | None:
        """The same for one file."""
        return self.lenders((path,))[path]

    def any_private(self, names: Iterable[Name]) -> bool:
        """Whether one of these records is for this shop only."""
        private = {file.name for file in self.files() if file.is_private}
        return not private.isdisjoint(names)

    @property
    def private_folders(self) -> tuple[Path, ...]:
        """The roots that this book has and a public one leaves out."""
        private = (root.folder for root in self.roots if root.visibility == "private")
        return () if self.public else tuple(folder for folder in private if folder.is_dir())


def open_book(folder: Path, public: bool = False) -> Book:
    """Return the book in `folder`, without its private roots when `public`.

    It needs a settings file or one of the record folders.

    Raises:
        BookNotFoundError: there is no such folder, it holds no book, or it has two settings files.
    """
    if not folder.is_dir():
        raise BookNotFoundError(f"there is no folder {folder}")
    if not holds_book(folder):
        raise BookNotFoundError(
            f"{folder} holds no book: it needs a {SETTINGS_FILE} or a folder named one of "
            f"{', '.join(FOLDERS)}"
        )
    settings = read_settings(folder)
    findings = settings.findings
    if public:  # of a private root that is missing, a public book knows nothing
        findings = tuple(f for f in findings if f.rule_id != ROOT_MISSING.id or f.fails_check)
    return Book(
        folder=folder,
        site_name=settings.site_name,
        roots=settings.roots,
        defaults=settings.defaults,
        findings=findings,
        report_address=settings.report_address,
        site_address=settings.site_address,
        public=public,
        data_licence=settings.data_licence,
    )


def holds_book(folder: Path) -> bool:
    """Whether a folder has a settings file or one of the record folders.

    Raises:
        BookNotFoundError: it has both files that could hold its settings.
    """
    return settings_file(folder) is not None or any((folder / name).is_dir() for name in FOLDERS)
