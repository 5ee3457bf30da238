"""`diff`: two editions of a book, or of one record, and what changed from one to the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import Any, Literal, NamedTuple

from builder.book import FOLDERS, Book, RecordFile, shown_path
from builder.book.record_files import Name
from builder.loading import load_taken, take_file
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import RecordKind
from builder.pipeline.answers.packs import made_packs
from builder.pipeline.checking.acceptance import apply_acceptances
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.checked_vehicle import CheckedVehicle, check_vehicle
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.gate import Gate, gate_of, names_in
from builder.pipeline.checking.records import (
    ID_NOT_FILE_NAME,
    ReadRecord,
    as_counted,
    read_record,
)
from builder.pipeline.checking.shape import shape_of
from builder.pipeline.checking.shelf import Shelves
from builder.pipeline.comparing.changes import Change, Graded, data_changes, vehicle_changes
from builder.pipeline.comparing.plan_changes import pack_changes, plan_changes
from builder.planning.plan import Plan
from builder.planning.work_pack import WorkPack
from builder.proof.pin_proof import prove


class NotComparableError(Exception):
    """The two sides cannot be compared; the message says why."""


class RecordChanges(NamedTuple):
    """What changed on one record, or on the plan or pack of that name.

    `came` says that it is only in the new edition
    (True), only in the old (False), or in both (None).
    """

    kind: RecordKind | Literal["plan", "work pack"]
    name: str
    came: bool | None
    changes: tuple[Change, ...]

    def as_data(self) -> dict[str, Any]:
        """The changes as plain data."""
        status = {True: "added", False: "removed", None: "changed"}[self.came]
        changes = [change._asdict() for change in self.changes]
        return {"kind": self.kind, "name": self.name, "status": status, "changes": changes}


@dataclass(frozen=True)
class Edition:
    """One side of a comparison: its records, and what plans are made with."""

    files: Mapping[Name, RecordFile]
    shelf: Shelf
    gate: Gate
    packs: Mapping[str, WorkPack]
    renamed: Mapping[Name, str] = field(default_factory=dict)

    def called_as_in(self, other: Edition) -> Edition:
        """The same with each record under the id that it has in another, later edition."""
        renamed = other.renamed
        files = {(name[0], renamed.get(name, name[1])): file for name, file in self.files.items()}
        packs = {renamed.get(("job", name), name): pack for name, pack in self.packs.items()}
        return replace(self, files=files, packs=packs, renamed=renamed)

    @cached_property
    def parts(self) -> tuple[object, ...]:
        """Everything besides the vehicle itself that a plan of a vehicle depends on."""
        shelf = self.shelf
        return (shelf.converters, shelf.housings, shelf.interfaces, shelf.defaults)

    def read(self, name: Name) -> ReadRecord:
        """Read one of its records."""
        return as_counted(read_record(self.files[name]), self.shelf)

    def plans(self, read: ReadRecord, vehicle: Vehicle) -> dict[str, Plan]:
        """The plans of a vehicle by converter."""
        made = plans_of(read, vehicle, self.shelf, self.gate)
        plans = [decided.plan for decided in made]
        called = [self.renamed.get(("converter", plan.converter), plan.converter) for plan in plans]
        return dict(zip(called, plans, strict=True))


def edition_of_book(book: Book) -> Edition:
    """Return a whole book as one side."""
    checked = check_book(book)
    files = {file.name: file for file in book.files() if not file.is_template}
    packs = {made.pack.job: made.pack for made in made_packs(checked)}
    return Edition(files, checked.shelf, checked.gate(), packs, book.renamed)


def edition_of_file(file: RecordFile, around: Book | None) -> Edition:
    """Return one record file as a side; the parts of the book `around` it serve its plans.

    Raises:
        NotComparableError: it is no record in order.
    """
    whole = check_book(around) if around else None
    shelf = whole.shelf if whole else Shelf()
    checked = check_vehicle(Shelves(shelf, shelf), file) if file.kind == "vehicle" else None
    read = read_record(file)
    if read.record is None:
        first = read.findings[0]
        raise NotComparableError(f"{first.file}:{first.line}:{first.column}: {first.message}")
    gate = _gate_of_file(checked, read.record.id, whole) if checked else Gate()
    return Edition({(file.kind, ""): file}, shelf, gate, {})


def _gate_of_file(checked: CheckedVehicle, vehicle_id: str, around: CheckedBook | None) -> Gate:
    """What stands open on a vehicle's file, on the parts around it and on their book.

    A file that is held against another may have any name.
    """
    own = apply_acceptances(checked.findings, checked.acceptances)
    found = [finding for finding in own if finding.rule_id != ID_NOT_FILE_NAME.id]
    names = {checked.file.shown: names_in(checked.file, vehicle_id)}
    if around is None:
        return gate_of(found, names)
    cars = {shown for shown, of in around.names.items() if of[0][0] in ("vehicle", "job")}
    found += [finding for finding in around.findings if finding.file not in cars]
    parts = {shown: of for shown, of in around.names.items() if shown not in cars}
    return gate_of(found, {**parts, **names})


def taken_record(path: Path) -> RecordFile:
    """Return a record file, read once, with its kind: of its folder, else the one its keys fit.

    Raises:
        NotComparableError: it fits none.
    """
    taken, shown = take_file(path), shown_path(path)
    for folder in reversed(path.resolve().parent.parts):
        if folder in FOLDERS:
            return RecordFile(FOLDERS[folder], path, shown, taken=taken)
    loaded = load_taken(taken, shown)
    for kind in FOLDERS.values():
        if loaded.data and not shape_of(kind, loaded, shown).fails:
            return RecordFile(kind, path, shown, taken=taken)
    raise NotComparableError(f"{shown_path(path)} is no record in order: loombook check says why")


def compared(old: Edition, new: Edition) -> list[RecordChanges]:
    """Return every record, plan and work pack that differs, in the order of kinds and names."""
    old, found = old.called_as_in(new), []
    for name in sorted({*old.files, *new.files}):
        if name not in old.files or name not in new.files:
            found.append(RecordChanges(*name, name in new.files, ()))
        else:
            found += _record(old, new, name)
    found += _packs(old, new)
    return [each for each in found if each.changes or each.came is not None]


def _record(old: Edition, new: Edition, name: Name) -> Iterator[RecordChanges]:
    before, after = old.read(name), new.read(name)
    one, other = before.record, after.record
    title = name[1] or (other.id if other else after.file.shown)
    if not isinstance(one, Vehicle) or not isinstance(other, Vehicle):
        yield RecordChanges(name[0], title, None, tuple(data_changes(before.data, after.data)))
        return
    if before.digest == after.digest and old.parts == new.parts:
        return
    sides = (
        Graded(one, before.data, prove(one, old.shelf.defaults)),
        Graded(other, after.data, prove(other, new.shelf.defaults)),
    )
    yield RecordChanges("vehicle", title, None, tuple(vehicle_changes(*sides)))
    yield from _plans(title, old.plans(before, one), new.plans(after, other))


def _plans(
    title: str, before: Mapping[str, Plan], after: Mapping[str, Plan]
) -> Iterator[RecordChanges]:
    for converter in sorted({*before, *after}):
        name = f"{title} with {converter}"
        one, other = before.get(converter), after.get(converter)
        if one is None or other is None:
            yield RecordChanges("plan", name, other is not None, ())
        else:
            yield RecordChanges("plan", name, None, tuple(plan_changes(one, other)))


def _packs(old: Edition, new: Edition) -> Iterator[RecordChanges]:
    for job in sorted({*old.packs, *new.packs}):
        one, other = old.packs.get(job), new.packs.get(job)
        if one is not None and other is not None:
            yield RecordChanges("work pack", job, None, tuple(pack_changes(one, other)))
        elif ("job", job) in old.files and ("job", job) in new.files:
            yield RecordChanges("work pack", job, other is not None, ())


def compared_files(old: Path, new: Path, around: Book | None) -> list[RecordChanges]:
    """Return what changed from one record file to another of its kind.

    Raises:
        NotComparableError: one is no record in order, or they are of two kinds.
    """
    files = [taken_record(path) for path in (old, new)]
    kinds = [file.kind for file in files]
    if kinds[0] != kinds[1]:
        raise NotComparableError(f"{old} is a {kinds[0]} record, {new} a {kinds[1]} record")
    return compared(*(edition_of_file(file, around) for file in files))
