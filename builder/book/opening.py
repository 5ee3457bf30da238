"""A book as it is opened: its records and settings at one moment."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType

from builder.book.linked_files import folders_in_doubt
from builder.book.locked import Standing
from builder.book.looks import Looks
from builder.book.ownership import lenders_of, own_roots
from builder.book.record_files import (
    FOLDERS,
    Name,
    RecordFile,
    Root,
    is_begun_name,
    is_record_name,
    shown_path,
)
from builder.book.renamed import RENAMED_WRONGLY, wrong_renamings
from builder.book.settings import ROOT_MISSING, Settings, lent_renamings, read_settings
from builder.book.settings_files import LOCK_FILE, SETTINGS_FILE, BookNotFoundError, holds_book
from builder.book.snapshot import NO_FILES, Snapshot, take_snapshot
from builder.findings import Finding
from builder.loading import take_file
from builder.model.house_defaults import HouseDefaults
from builder.model.recording_lead import RecordingLead
from builder.store import NO_STORE, Store


@dataclass(frozen=True, slots=True)
class Book:
    """A folder of records with its settings, all of it as it was when the book was opened.

    Settings and records were read once, into this object: what is saved later is another state,
    for which the book is opened again. `public` leaves every private root out: the book is then
    what everybody may see. `as_of` is the day it is looked at (YYYY-MM-DD), "" for the day of its
    newest record: nothing but the command line reads a clock, so that the same book gives the
    same site.
    """

    folder: Path
    site_name: str
    roots: tuple[Root, ...]
    defaults: HouseDefaults
    findings: tuple[Finding, ...]  # about the settings and the folders
    report_address: str = ""  # template of the address that reports go to, "" for none
    site_address: str = ""  # where the built site will stand, https; "" when nobody said
    public: bool = False
    data_licence: str = ""  # terms for the use of the records, "" when nobody said
    as_of: str = ""
    snapshot: Snapshot = NO_FILES
    borrowed: tuple[Standing, ...] = ()  # the books of others that it builds on
    store: Store = NO_STORE  # where what was worked out is kept for the next time
    leads: tuple[RecordingLead, ...] = ()  # what its shop records pairs with
    settings_state: str = ""  # the digest of the settings file, or why it has none

    def files(self) -> list[RecordFile]:
        """Every record file, templates included, in an order that does not depend on the disk."""
        return list(self.snapshot.files)

    def every_file(self) -> list[RecordFile]:
        """The same with the shared records in whose place private ones stand."""
        return list(self.snapshot.every)

    @property
    def digest(self) -> str:
        """SHA-256 of all that was read, in hexadecimal: it differs when any file or name does."""
        said = "\n".join(finding.message for finding in self.findings)
        renamed = sorted(self.renamed.items())
        state = f"{self.settings_state}\n{said}\n{renamed}\n{self.snapshot.digest}"
        return hashlib.sha256(state.encode("utf-8", "surrogateescape")).hexdigest()

    @property
    def renamed(self) -> Mapping[Name, str]:
        """What old names of records and contributors are called today, by kind and old name."""
        return self.snapshot.renamed

    def with_texts(self, texts: Mapping[Path, str]) -> Book:
        """The same book with these texts in these record files, new ones among them."""
        return replace(self, snapshot=self.snapshot.with_texts(self.roots, texts))

    def without(self, paths: Collection[Path]) -> Book:
        """The same book as if these record files were not there."""
        return replace(self, snapshot=self.snapshot.without(paths))

    def where_moved(self, paths: Collection[Path]) -> Book | None:
        """The same book with what stands in these files now; None where it must be opened again.

        That is where more than a record's own text may be another: its settings, which records
        there are, a name that is a link, a borrowed book.
        """
        of_book = {path for path in paths if _may_be_read(path)}
        snapshot = None if self.snapshot.renamings else self.snapshot.where_moved(of_book)
        return replace(self, snapshot=snapshot) if snapshot else None

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

    def borrowed_words(self, file: RecordFile) -> str:
        """From where a record file comes when a borrowed book keeps it, as a sentence; else ""."""
        return next((each.words for each in self.borrowed if each.book.name == file.lender), "")

    def any_private(self, names: Iterable[Name]) -> bool:
        """Whether one of these records is for this shop only, or holds a visit that is."""
        private = {file.name for file in self.files() if file.is_private}
        visited = (file for file in self.files() if file.visits)
        private |= {file.name for file in visited if any(v.is_private for v in file.visits)}
        return not private.isdisjoint(names)

    @property
    def private_folders(self) -> tuple[Path, ...]:
        """The roots that this book has and a public one leaves out."""
        private = (root.folder for root in self.roots if root.visibility == "private")
        return () if self.public else tuple(folder for folder in private if folder.is_dir())


def open_book(
    folder: Path,
    public: bool = False,
    since: Book | None = None,
    instead: Mapping[str, Path] = MappingProxyType({}),
    looks: Looks | None = None,
) -> Book:
    """Return the book in `folder`, without its private roots when `public`, and read all of it.

    It needs a settings file or one of the record folders. `since` is the same book as it was
    opened before: what is still the same then takes no memory twice. `instead` are folders in which
    borrowed books are read by name, whatever stands there. With `looks`, a file that stands as it
    did at an earlier look is read only when somebody asks what is in it.

    Raises:
        BookNotFoundError: there is no such folder, it holds no book, or it has two settings files.
    """
    settings = settings_of(folder, instead)
    findings = settings.findings
    if public:  # of a private root that is missing, a public book knows nothing
        findings = tuple(f for f in findings if f.rule_id != ROOT_MISSING.id or f.fails_check)
    known = {file.path: file.content for file in since.every_file()} if since else None
    read = [root for root in settings.roots if not (public and root.visibility == "private")]
    renamings = [*lent_renamings(folder, read), *settings.renamings]
    take = looks.take if looks else take_file
    snapshot = take_snapshot(settings.roots, public, known, renamings, take)
    if looks:
        looks.keep()
    findings += _wrong_renamings(settings, snapshot, len(read) == len(settings.roots))
    findings += tuple(folders_in_doubt(settings.roots, public))
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
        snapshot=snapshot,
        borrowed=settings.lock.books,
        leads=settings.leads,
        settings_state=settings.state,
    )


def _may_be_read(path: Path) -> bool:
    """Whether what stands there may say something of a book; an editor's own files do not."""
    named_so = is_record_name(path) or is_begun_name(path) or path.name == LOCK_FILE
    return named_so or path.is_symlink()


def _wrong_renamings(settings: Settings, snapshot: Snapshot, whole: bool) -> tuple[Finding, ...]:
    faults = wrong_renamings(settings.renamings, snapshot.files, whole)
    return tuple(settings.finding(fault, RENAMED_WRONGLY) for fault in faults)


def settings_of(folder: Path, instead: Mapping[str, Path] = MappingProxyType({})) -> Settings:
    """Return what the settings of the book in `folder` say, without reading its records.

    Raises:
        BookNotFoundError: there is no such folder, it holds no book, or it has two settings files.
    """
    if not folder.is_dir():
        raise BookNotFoundError(f"there is no folder {shown_path(folder)}")
    if not holds_book(folder):
        raise BookNotFoundError(
            f"{shown_path(folder)} holds no book: it needs a {SETTINGS_FILE} or a folder named "
            f"one of {', '.join(FOLDERS)}"
        )
    return read_settings(folder, instead)
