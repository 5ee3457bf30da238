"""The housings and parts of a book, read before the vehicles that refer to them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from builder.book import Book, Name, RecordFile
from builder.findings import CatalogueEntry, Fault, Finding, Severity
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.words import RecordKind
from builder.pipeline.checking.gate import names_in
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.photos import PhotosOfBook, private_folders
from builder.pipeline.checking.privacy import names_private
from builder.pipeline.checking.records import ReadRecord, read_record
from builder.pipeline.checking.ruling import run_rules
from builder.rules.registry import rules_for
from builder.rules.rule import Scope

ID_USED_TWICE = CatalogueEntry(
    id="BOK102",
    slug="id-used-twice",
    title="Two records of one kind have the same id",
    severity=Severity.STOP,
    what="A part, a job or a visit whose id another file of its kind has too: of visits, be it in "
    "the folder of another vehicle.",
    why="A reference to that id could mean either, and a plan made with the wrong part is wrong. A "
    "visit is of one car: what stands in two vehicles counts for one that nobody measured.",
    example="housings/two-row-20.yaml and housings/old/two-row-20.yaml",
    fix="Rename one of the two, or delete the older. A private part or job that is meant to stand "
    "in for a shared one says so with `replaces`, and why. No visit stands in for another: of one "
    "that was copied, delete the copy; of two, give the later one an id and a file name of its "
    "own; what is wrong in a visit is taken back with `loombook visit withdraw`.",
)


@dataclass(frozen=True, slots=True)
class Shelves:
    """The parts of the book, and the same with the commented examples among them.

    An example vehicle may refer to an example housing; a vehicle of the book may not.
    """

    book: Shelf
    with_templates: Shelf
    public: Shelf | None = None  # without private records; None for a book that has none
    names: Mapping[str, tuple[Name, ...]] = field(default_factory=dict)  # in each file, as shown

    def for_file(self, file: RecordFile) -> Shelf:
        """The parts that a record file may refer to."""
        return self.with_templates if file.is_template else self.book


def read_shelves(book: Book, files: Sequence[RecordFile]) -> tuple[Shelves, list[Finding]]:
    """Return everything vehicles may name, and the findings about it."""
    reads = [read_record(file) for file in files if file.kind not in ("vehicle", "job", "visit")]
    findings = [finding for read in reads for finding in _findings(read)]
    own = [read for read in reads if not read.file.is_template]
    findings += _used_twice(own)
    ids = [file.path.stem for file in files if file.kind == "vehicle"]
    shelves = Shelves(
        _shelf(own, ids, book),
        _shelf(reads, ids, book),
        _public(reads, files, book),
        {
            read.file.shown: names_in(read.file, read.record.id if read.record else None)
            for read in reads
        },
    )
    findings += [finding for read in reads for finding in _among(read, shelves)]
    return shelves, findings


def housings_of(book: Book) -> Mapping[str, Housing]:
    """The housings of a book by id, the commented example left out."""
    return counting_shelf(book).housings


def counting_shelf(book: Book) -> Shelf:
    """The shells and contributors of a book: what its vehicles are counted by."""
    kinds: dict[RecordKind, dict[str, Any]] = {"housing": {}, "contributor": {}}
    for file in book.files():
        if file.kind in kinds and not file.is_template:
            record = read_record(file).record
            if record is not None:
                kinds[file.kind][record.id] = record
    return Shelf(housings=kinds["housing"], contributors=kinds["contributor"])


def _public(reads: Sequence[ReadRecord], files: Sequence[RecordFile], book: Book) -> Shelf | None:
    """What a shared record may name: a private record in the place of a shared one counts too."""
    if not any(file.is_private for file in files):
        return None
    ids = [file.path.stem for file in files if file.kind == "vehicle" and _has_shared_name(file)]
    return _shelf([read for read in reads if _has_shared_name(read.file)], ids, book)


def _has_shared_name(file: RecordFile) -> bool:
    return not file.is_private or file.replaces == file.path.stem


def _shelf(reads: Sequence[ReadRecord], vehicle_ids: Sequence[str], book: Book) -> Shelf:
    kinds: dict[RecordKind, dict[str, Any]] = defaultdict(dict)
    for read in reads:
        if read.record is not None:
            kinds[read.file.kind].setdefault(read.record.id, read.record)
    return Shelf(
        housings=kinds["housing"],
        converters=kinds["converter"],
        amplifiers=kinds["amplifier"],
        cables=kinds["cable"],
        looms=kinds["loom"],
        interfaces=kinds["interface"],
        contributors=kinds["contributor"],
        photos=PhotosOfBook(str(book.folder), private_folders(book)),
        photo_home=str(book.folder),
        vehicle_ids=frozenset(vehicle_ids),
        defaults=book.defaults,
        as_of=book.as_of or None,
    )


def _used_twice(reads: Sequence[ReadRecord]) -> list[Finding]:
    seen: dict[tuple[str, str], str] = {}
    found = []
    for read in reads:
        if read.record is not None:
            first = seen.setdefault((read.file.kind, read.record.id), read.file.shown)
            if first != read.file.shown:
                found.append(twice(read, read.record.id, first))
    return found


def _findings(read: ReadRecord) -> list[Finding]:
    if read.record is None:
        return read.findings
    try:
        rules = rules_for(Scope.RECORD, read.file.kind)
        return read.findings + run_rules(rules, read, read.record)
    except Exception as error:
        return [*read.findings, own_fault(read.file.shown, error)]


def _among(read: ReadRecord, shelves: Shelves) -> list[Finding]:
    """What is wrong with a part among the others, and with what it names of them."""
    rules = rules_for(Scope.PART, read.file.kind)
    if read.record is None or not rules:
        return []
    shelf = shelves.for_file(read.file)
    try:
        found = run_rules(rules, read, read.record, shelf)
        return found + names_private(read, read.record, shelf, shelves.public)
    except Exception as error:
        return [own_fault(read.file.shown, error)]


_OF_PARTS = (
    "rename one of the two files, and its id with it; a private record that is meant to stand in "
    "for a shared one, or an own one for a borrowed one, says: replaces: {{id: {}, reason: why}}"
)
_OF_VISITS = (
    "delete the one that is a copy; two visits have ids of their own: rename the later file, and "
    "its id with it; loombook visit withdraw takes back what is wrong in one"
)


def twice(read: ReadRecord, record_id: str, first: str) -> Finding:
    """Return the finding that a record has the id of the file `first`."""
    fault = Fault(
        ("id",),
        f'id "{record_id}" is the id of {first} too',
        _OF_VISITS if read.file.kind == "visit" else _OF_PARTS.format(record_id),
    )
    entry = ID_USED_TWICE
    return read.locate(fault, entry.id, entry.slug, entry.severity)
