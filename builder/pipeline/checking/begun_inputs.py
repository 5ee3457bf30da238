"""What a begun job may be planned from: its frozen records, the book of its day, that of today."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal, NamedTuple

from builder.book import Book, RecordFile
from builder.findings import DataPath
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.pin import Pin
from builder.model.references import references_in
from builder.model.stood import stood_on
from builder.model.vehicle import Vehicle
from builder.model.words import GradeBand, RecordKind
from builder.pipeline.checking.frozen import Frozen, frozen_in
from builder.pipeline.checking.gate import gate_of
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.ruling import run_rules
from builder.pipeline.checking.shelf import read_shelves
from builder.planning.job.make_pack import make_pack
from builder.planning.trust import GradeOf
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.registry import rules_for
from builder.rules.rule import Scope

Source = Literal["frozen", "stood", "today", "named"]
"""What a begun job is planned from: its frozen records, the book as it stood on that day, the car's
record of today, when neither gives a plan; or nothing, where a part's record is gone."""


class _Joined(NamedTuple):
    """The grade of a pin that is joined already: whether it should have been is another matter."""

    band: GradeBand = "proven"
    why: str = "it is joined"
    raise_by: str = ""


def _as_joined(vehicle: Vehicle, pin: Pin) -> _Joined:
    return _Joined()


@dataclass(frozen=True, slots=True)
class Inputs:
    """What a pack can be made from, what stops kept from use then, and how pins are graded."""

    parts: JobParts
    barred: Mapping[DataPath, str]
    grade: GradeOf | None = None
    source: Source = "frozen"

    def pack(self, *, results: bool) -> WorkPack:
        """The pack, in no order where it is asked what results fill in."""
        parts = self.parts
        if not results:
            parts = replace(parts, job=replace(parts.job, results=()))
        defaults = parts.shelf.defaults
        return make_pack(
            parts, defaults=defaults, grade=self.grade, barred=self.barred, ordered=not results
        )


def inputs_of(
    read: ReadRecord, job: Job, shelf: Shelf, car: ReadRecord | None, day: str
) -> Iterator[Inputs]:
    """What the pack may be made from, the truest first."""
    frozen = job.begun and frozen_in(read.file.begun, job.begun.as_built.records)
    if frozen:
        yield from of_frozen(frozen, job)
    if car is not None and isinstance(car.record, Vehicle):
        then = stood_on(car.record, day)
        stood = _tries(job, shelf, then, _bars(car, then, shelf))
        yield from (replace(inputs, source="stood") for inputs in stood)
        for grade in (None, _as_joined):
            today = _tries(job, shelf, car.record, {})
            yield from (replace(inputs, grade=grade, source="today") for inputs in today)


def _tries(
    job: Job, shelf: Shelf, car: Vehicle, barred: Mapping[DataPath, str]
) -> Iterator[Inputs]:
    """With what stops kept from use, then without: a rule of today may not have been one then.
    A car with two wires in one cavity cannot be joined by any rules; one with two plugs of one
    name cannot even be looked into."""
    parts = job_parts(job, shelf, car)
    if parts is None or _has_twins([plug.id for plug in car.plugs]):
        return
    if barred:
        yield Inputs(parts, barred)
    if not any(_has_twins([pin.cavity for pin in plug.pins]) for plug in car.plugs):
        yield Inputs(parts, {})


def _has_twins(names: list[str]) -> bool:
    return len({*names}) < len(names)


def _bars(read: ReadRecord, car: Vehicle, shelf: Shelf) -> dict[DataPath, str]:
    found = run_rules(rules_for(Scope.RECORD, "vehicle"), read, car)
    found += run_rules(rules_for(Scope.VEHICLE), read, car, shelf)
    return gate_of(found, {read.file.shown: (("vehicle", car.id),)}).bars(car.id)


def of_frozen(frozen: Frozen, job: Job) -> Iterator[Inputs]:
    """The job and the car as they were frozen, with the results of today in the job."""
    book = Book(Path(), "", (), frozen.defaults, ())
    shelf = read_shelves(book, frozen.files)[0].book
    then, car = _one(frozen, "job").record, _car(frozen, shelf)
    if not isinstance(then, Job) or not isinstance(car.record, Vehicle):
        return
    named = references_in("vehicle", car.data)
    known = {one.name for one in named if one.kind == "vehicle"}
    shelf = replace(shelf, vehicle_ids=frozenset(known))
    with_results = replace(
        then, results=job.results, notes=job.notes, ticked=job.ticked,
        follow_up=job.follow_up, begun=job.begun, edited=job.edited,
    )  # fmt: skip
    yield from _tries(with_results, shelf, car.record, _bars(car, car.record, shelf))


def _car(frozen: Frozen, shelf: Shelf) -> ReadRecord:
    car = (read := as_counted(_one(frozen, "vehicle"), shelf)).record
    counted = replace(car, counts_as=frozen.counts_as) if isinstance(car, Vehicle) else car
    return replace(read, record=counted)


def _one(frozen: Frozen, kind: RecordKind) -> ReadRecord:
    """The one record of a kind; a file without it is not ours, and the reader says so."""
    found: Iterator[RecordFile] = (file for file in frozen.files if file.kind == kind)
    return read_record(next(found))


def pack_of_frozen(frozen: Frozen, job: Job) -> WorkPack | None:
    """Return the tap plan that frozen records give; None where they give none."""
    packs = (inputs.pack(results=False) for inputs in of_frozen(frozen, job))
    return next((pack for pack in packs if pack.kind == "tap_plan"), None)
