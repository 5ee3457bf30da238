"""The books of others that a book builds on: `books.lock`, and what of them stands in `.books`.

Nothing here asks a network. What was taken out of a commit is read as it stands on the disk, and
only when its bytes add up to the sum in the lock: a borrowed record that somebody changed here
would be taken for one that its own book vouches for.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, NamedTuple

from builder.book.record_files import shown_path
from builder.book.settings_files import LOCK_FILE
from builder.declaring import read
from builder.findings import CatalogueEntry, DataPath, Finding, Severity
from builder.loading import (
    LARGEST_FILE_BYTES,
    FileTooLargeError,
    empty_file,
    load_file,
    read_bounded,
)
from builder.model.locked_books import BookLock, LockedBook
from builder.schema_check import check_shape
from builder.source_map import SourceMap

LOCKED_FOLDER: Final = ".books"

NOT_FETCHED = CatalogueEntry(
    id="BOK124",
    slug="borrowed-not-fetched",
    title="A borrowed book that is not here as it was locked",
    severity=Severity.STOP,
    what="A book of `books.lock` that was not fetched to this machine, or whose files here are not "
    "those that were taken out of its commit.",
    why="Plans rest on its records. Left out silently they would be missing; read as they are, a "
    "change that nobody of that book has seen would count as theirs.",
    example="`books.lock` names coast-shops, and there is no `.books/coast-shops`.",
    fix="Run `loombook books fetch`. A change of your own belongs into a record of your own, with "
    "`replaces`.",
)
NAMED_TWICE = CatalogueEntry(
    id="BOK125",
    slug="borrowed-named-twice",
    title="Two borrowed books of one name",
    severity=Severity.STOP,
    what="Two entries of `books.lock` with the same `name`.",
    why="Both would be one folder, and only one of them would be read.",
    example="books:\n  - {name: coast, address: ../a, …}\n  - {name: coast, address: ../b, …}",
    fix="Give one of them another name, and run `loombook books fetch`.",
)

_NO_LIST: Final = empty_file(
    "list of books",
    "delete it where the book borrows none; else take it back as loombook books wrote it.",
)


class Standing(NamedTuple):
    """A borrowed book, the folder that it is read in, and the terms for the use of its records."""

    book: LockedBook
    place: Path
    data_licence: str = ""

    @property
    def words(self) -> str:
        """From where its records come, as a sentence."""
        book = self.book
        return f"Borrowed from the book {book.name} ({book.address}) at commit {book.commit[:12]}."


@dataclass(frozen=True, slots=True)
class Lock:
    """What `books.lock` says: the books that can be read, and what is wrong with the others.

    `named` is every book that it names, here or not; none where it cannot be read.
    """

    books: tuple[Standing, ...] = ()
    findings: tuple[Finding, ...] = ()
    named: tuple[LockedBook, ...] = ()


NO_LOCK: Final = Lock()


def read_lock(folder: Path, instead: Mapping[str, Path]) -> Lock:
    """Return the borrowed books of the book in `folder` whose files here are those that they say.

    `instead` are folders in which some of them are read whatever stands there, by name: a newer
    state that is looked at and not taken. A lock that cannot be read borrows nothing, and its
    findings say why.
    """
    path = folder / LOCK_FILE
    if not os.path.lexists(path):
        return NO_LOCK
    shown = shown_path(path)
    loaded = load_file(path, shown, _NO_LIST)
    findings = list(loaded.findings)
    if loaded.data is not None:
        findings += check_shape("lock", loaded.data, loaded.source_map, shown)
    if findings:
        return Lock((), tuple(findings))
    here: list[Standing] = []
    wrong: list[Finding] = []
    named = read(BookLock, loaded.data or {}).books
    for at, book in enumerate(named):
        place = instead.get(book.name, place_of(folder, book))
        fault = _why_not(place, book, [each.book.name for each in here], book.name in instead)
        if fault is None:
            here.append(Standing(book, place))
        else:
            wrong.append(_finding(fault, shown, loaded.source_map, ("books", at, "name")))
    return Lock(tuple(here), tuple(wrong), named)


class _Fault(NamedTuple):
    entry: CatalogueEntry
    message: str
    help: str


def _why_not(place: Path, book: LockedBook, before: Sequence[str], whatever: bool) -> _Fault | None:
    """Why a borrowed book is not read here; None when it is."""
    if book.name in before:
        said = f"two borrowed books are called {book.name}"
        return _Fault(NAMED_TWICE, said, "give one of them another name")
    if not place.is_dir():
        said = f"{book.name} is not fetched to this machine"
    elif not whatever and sum_of(place) != book.sum:
        said = f"the files of {book.name} here are not those of commit {book.commit[:12]}"
    else:
        return None
    return _Fault(NOT_FETCHED, said, "run loombook books fetch")


def _finding(fault: _Fault, shown: str, places: SourceMap, path: DataPath) -> Finding:
    line, column = places.value_position(path)
    entry = fault.entry
    said = (fault.message, fault.help, path)
    return Finding(shown, line, column, entry.severity, entry.id, entry.slug, *said)


def place_of(folder: Path, book: LockedBook) -> Path:
    """The folder that its files are taken out to."""
    return folder / LOCKED_FOLDER / book.name


def sum_of(place: Path) -> str:
    """SHA-256 over the names and bytes of the files under a folder, in hexadecimal.

    "" where something stands that is never taken out: a link, or a file too large for a record.
    """
    total = hashlib.sha256()
    for path in sorted(_files(place)):
        if path.is_symlink():
            return ""
        try:
            raw = read_bounded(path, LARGEST_FILE_BYTES)
        except (OSError, FileTooLargeError):
            return ""
        name = path.relative_to(place).as_posix().encode("utf-8", "surrogateescape")
        total.update(b"%d %s %d\0" % (len(name), name, len(raw)) + raw)
    return total.hexdigest()


def _files(place: Path) -> Iterator[Path]:
    for folder, inner, names in os.walk(place):
        yield from (Path(folder, name) for name in names)
        yield from (path for name in inner if (path := Path(folder, name)).is_symlink())


def lock_text(books: Sequence[LockedBook]) -> str:
    """Return the text of the lock file, every word in quotes: a sum can look like a number."""
    lines = [
        "# yaml-language-server: $schema=../schema/lock.schema.json",
        "# The books that this one builds on, each at one commit. `loombook books` writes it.",
        "schema: 1",
        "books:" if books else "books: []",
    ]
    for book in books:
        said = _said(book)
        lines += [f'  {"-" if at == 0 else " "} {key}: "{value}"' for at, (key, value) in said]
    return "\n".join(lines) + "\n"


def _said(book: LockedBook) -> Iterator[tuple[int, tuple[str, Any]]]:
    left_out = {"branch": "", "folder": "."}
    keys = ("name", "address", "branch", "folder", "commit", "sum")
    told = ((key, getattr(book, key)) for key in keys)
    return enumerate(pair for pair in told if left_out.get(pair[0]) != pair[1])
