"""What all vehicles of a book are to each other, kept so that a question about one reads that one.

A vehicle is found wrong by its own text, by the parts that it names, and by the book-wide rules.
The first two are looked at wherever they are asked for. What book-wide rules find rests on every
vehicle: it is kept under the digest of the whole book, and where that is another, all is checked.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import NamedTuple

from builder.book import Book, RecordFile
from builder.pipeline.checking.book_rules import (
    BookFaults,
    Faults,
    Found,
    faults_in_book,
    plain_faults,
    read_faults,
)
from builder.pipeline.checking.checked_vehicle import CheckedVehicle
from builder.pipeline.checking.kept import Kept, as_line, is_own_fault
from builder.pipeline.checking.kept_vehicles import check_vehicles
from builder.pipeline.checking.records import read_record
from builder.pipeline.checking.shelf import Shelves
from builder.pipeline.checking.workers import Progress


class CheckedVehicles(NamedTuple):
    """Vehicles that were checked, what book-wide rules find of them, by their number here, and the
    newest date in all vehicles of the book."""

    checked: Sequence[CheckedVehicle]
    found: BookFaults
    newest: str


class _Whole(NamedTuple):
    """What is kept of a book: the newest date, and what was found by the number of a vehicle."""

    newest: str
    faults: Faults


def vehicles_about(
    book: Book, files: Sequence[RecordFile], about: Collection[Path], shelves: Shelves, kept: Kept
) -> CheckedVehicles | None:
    """Check the vehicles in the files `about`, and those that something found is about them too.

    `files` are those of all vehicles of the book. None where nobody has checked all of it as it is.
    """
    whole = _known(book, kept)
    if whole is None:
        return None
    at = {file: number for number, file in enumerate(files)}
    ids = _ids([file for file in files if file.path in about])
    chosen = [f for f in files if f.path in about or _names(whole.faults.get(at[f], ()), ids)]
    checked = check_vehicles(chosen, shelves, kept, lambda done, total: None)
    found = {number: whole.faults.get(at[file], ()) for number, file in enumerate(chosen)}
    return CheckedVehicles(checked, BookFaults(found), whole.newest)


def all_vehicles(
    book: Book, files: Sequence[RecordFile], shelves: Shelves, kept: Kept, progress: Progress
) -> CheckedVehicles:
    """Check every vehicle of the book, and keep what they are to each other."""
    checked = check_vehicles(files, shelves, kept, progress)
    found = faults_in_book(checked, shelves.book, kept)
    newest = max((one.newest for one in checked), default="")
    if kept.is_on and not found.broken and not any(is_own_fault(c.findings) for c in checked):
        kept.keep(_key(book, kept), {}, as_line([newest, plain_faults(found.of)]))
    return CheckedVehicles(checked, found, newest)


def _key(book: Book, kept: Kept) -> str:
    return kept.key("whole book", book.digest)


def _known(book: Book, kept: Kept) -> _Whole | None:
    if not kept.is_on:
        return None
    key = _key(book, kept)
    if lines := kept.find([key]).get(key):
        newest, faults = json.loads(lines[0])
        return _Whole(newest, read_faults(faults))
    return None


def _ids(files: Sequence[RecordFile]) -> set[str]:
    """What the vehicles in these files may be called in a finding of another."""
    records = (read_record(file).record for file in files)
    return {file.stem for file in files} | {one.id for one in records if one is not None}


def _names(found: Sequence[Found], ids: set[str]) -> bool:
    return any(not ids.isdisjoint(fault.also) for _, fault in found)
