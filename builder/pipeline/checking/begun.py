"""A job that is begun: the pack it was begun with, whatever its results and the book say since.

What is joined stays joined. So the pack of such a job is made from the records as they stood: from
the file that `begin` wrote, or, of a job that nobody wrote it for, from the book without what came
later. Results and later findings change the job's state, and never the pack.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal, NamedTuple

from builder.book import Book, Name, RecordFile
from builder.findings import DataPath, Finding, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.pin import Pin
from builder.model.references import references_in
from builder.model.results import newest
from builder.model.stood import stood_on
from builder.model.vehicle import Vehicle
from builder.model.words import GradeBand, RecordKind
from builder.pipeline.checking.closing import as_built_pack, recalled_pack
from builder.pipeline.checking.frozen import Frozen, frozen_in
from builder.pipeline.checking.gate import Gate, gate_of, names_of_housings, still_open
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.privacy import records_of
from builder.pipeline.checking.records import ReadRecord, read_record, with_faces
from builder.pipeline.checking.ruling import run_rules
from builder.pipeline.checking.shelf import read_shelves
from builder.planning.job.as_built import as_built_of
from builder.planning.job.make_pack import make_pack
from builder.planning.job.recalled import Recall, Today, recalls_of
from builder.planning.job.standing import (
    JobStanding,
    is_joined,
    line_states,
    lines_in,
    state_of,
)
from builder.planning.power.asleep_draws import PARKED_BEFORE
from builder.planning.trust import GradeOf
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.registry import BY_ID, rules_for
from builder.rules.rule import Scope

_OF_RESULTS = frozenset({"results", "follow_up", "accept"})
"""Parts of a job that say how it went: what a rule finds there is a result, no later doubt."""


Source = Literal["frozen", "stood", "today"]
"""What a begun job is planned from: its frozen records, the book as it stood on that day, or the
car's record of today, when neither gives a plan."""


@dataclass(frozen=True, slots=True)
class BegunPack:
    """The pack that a job was begun with, what it was made from, and the same pack with what was
    read before work began in the places that it left open."""

    parts: JobParts
    pack: WorkPack
    filled: WorkPack
    source: Source


class _Joined(NamedTuple):
    """The grade of a pin that is joined already: whether it should have been is another matter."""

    band: GradeBand = "proven"
    why: str = "it is joined"
    raise_by: str = ""


def _as_joined(vehicle: Vehicle, pin: Pin) -> _Joined:
    return _Joined()


@dataclass(frozen=True, slots=True)
class _Inputs:
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


def begun_pack(
    read: ReadRecord, job: Job, shelf: Shelf, car: ReadRecord | None
) -> BegunPack | None:
    """Return the pack that a job was begun with, from the best that there is to make it from.

    None for a job that is not begun: nobody says so, and no result was read after anything was
    joined. Where no tap plan comes of it any more, the pack has the as-built part alone.
    """
    if job.begun is None and not job.results:
        return None
    last = None
    for inputs in _inputs(read, job, shelf, car):
        pack = inputs.pack(results=False)
        last = BegunPack(inputs.parts, pack, pack, inputs.source)
        if pack.kind == "tap_plan":
            joined = job.begun is not None or is_joined(pack.tests, job.results)
            return replace(last, filled=_filled(inputs, pack)) if joined else None
    if job.begun is None or last is None:
        return None
    pack = as_built_pack(last.pack, last.parts, job.begun.as_built)
    return replace(last, pack=pack, filled=pack)


def pack_of_frozen(frozen: Frozen, job: Job) -> WorkPack | None:
    """Return the tap plan that frozen records give; None where they give none."""
    packs = (inputs.pack(results=False) for inputs in _of_frozen(frozen, job))
    return next((pack for pack in packs if pack.kind == "tap_plan"), None)


def _filled(inputs: _Inputs, pack: WorkPack) -> WorkPack:
    """The pack with the draw that was read before work began: days and a limit follow from it, and
    no joint, no step and no way back."""
    if PARKED_BEFORE not in newest(inputs.parts.job.results):
        return pack
    read = inputs.pack(results=True)
    lines = {test.id: test for test in read.tests}
    tests = tuple(replace(lines.get(x.id, x), number=x.number) for x in pack.tests)
    return replace(pack, power=read.power, customer=read.customer, tests=tests)


def begun_day(job: Job) -> str:
    """Return the day from which the plan of a job stands, YYYY-MM-DD; "" for one not begun."""
    if job.begun is not None:
        return job.begun.date
    return min((result.date for result in job.results), default="")


def standing_of(
    made: BegunPack,
    job: Job,
    gate: Gate,
    findings: Sequence[Finding],
    car: Vehicle | None,
    shelf: Shelf,
) -> JobStanding:
    """Return how far a begun job is: its lines, and what the book of today says against it.

    `findings` are those of the job itself, `car` its vehicle's record of today.
    """
    day, begun = begun_day(job), job.begun
    as_built = begun.as_built if begun else as_built_of(made.pack, made.parts)
    lines = line_states(made.filled.tests, job.results, day, shelf.defaults)
    against = list(_of_the_rest(made.parts, gate, findings))
    if car is not None and as_built is not None:
        today = Today(car, gate.bars(car.id), shelf.defaults)
        against = [*recalls_of(as_built.pins, made.parts.vehicle, today), *against]
    return JobStanding(
        state=state_of(lines, against),
        begun=day,
        by=begun.by if begun else "",
        reconstructed=begun.reconstructed if begun else True,
        as_built=as_built,
        left=lines_in(lines, "open"),
        failed=lines_in(lines, "failed"),
        later=tuple(test.id for test in made.filled.tests if test.id not in lines),
        recalls=tuple(against),
    )


def shown_pack(made: BegunPack, standing: JobStanding, job: Job) -> WorkPack:
    """Return what is shown of the pack of a begun job: all of it, unless it is recalled.

    Where somebody corrected the as-built part, the way back follows that and not the plan.
    """
    pack, written = made.filled, job.begun and job.begun.as_built
    planned = as_built_of(pack, made.parts)
    if written and planned and replace(written, records=()) != replace(planned, records=()):
        pack = as_built_pack(pack, made.parts, written)
    return recalled_pack(pack, standing.recalls) if standing.recalls else pack


def _of_the_rest(parts: JobParts, gate: Gate, findings: Sequence[Finding]) -> Iterator[Recall]:
    """Stops of rules on the job itself, and on the parts it is made of; not on the car's pins."""
    named = records_of(parts.job) - {("job", parts.job.id), ("vehicle", parts.vehicle.id)}
    names: list[Name] = [*sorted(named), *names_of_housings(parts.vehicle)]
    own = [each for each in findings if not _OF_RESULTS & {*each.path[:1]}]
    found = still_open([*own, *(each for name in names for each in gate.on.get(name, ()))])
    for finding in found:
        if finding.severity is Severity.STOP and finding.rule_id in BY_ID:
            yield Recall("", f"{finding.rule_id}: {finding.message}", finding.help)


def _inputs(read: ReadRecord, job: Job, shelf: Shelf, car: ReadRecord | None) -> Iterator[_Inputs]:
    """What the pack may be made from, the truest first."""
    frozen = job.begun and frozen_in(read.file.begun, job.begun.as_built.records)
    if frozen:
        yield from _of_frozen(frozen, job)
    if car is not None and isinstance(car.record, Vehicle):
        then = stood_on(car.record, begun_day(job))
        stood = _tries(job, shelf, then, _bars(car, then, shelf))
        yield from (replace(inputs, source="stood") for inputs in stood)
        for grade in (None, _as_joined):
            today = _tries(job, shelf, car.record, {})
            yield from (replace(inputs, grade=grade, source="today") for inputs in today)


def _tries(
    job: Job, shelf: Shelf, car: Vehicle, barred: Mapping[DataPath, str]
) -> Iterator[_Inputs]:
    """With what stops kept from use, then without: a rule of today may not have been one then.
    A car with two wires in one cavity cannot be joined by any rules."""
    parts = job_parts(job, shelf, car)
    if parts is not None and barred:
        yield _Inputs(parts, barred)
    twin = any(len({pin.cavity for pin in plug.pins}) < len(plug.pins) for plug in car.plugs)
    if parts is not None and not twin:
        yield _Inputs(parts, {})


def _bars(read: ReadRecord, car: Vehicle, shelf: Shelf) -> dict[DataPath, str]:
    found = run_rules(rules_for(Scope.RECORD, "vehicle"), read, car)
    found += run_rules(rules_for(Scope.VEHICLE), read, car, shelf)
    return gate_of(found, {read.file.shown: (("vehicle", car.id),)}).bars(car.id)


def _of_frozen(frozen: Frozen, job: Job) -> Iterator[_Inputs]:
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
    return with_faces(_one(frozen, "vehicle"), shelf.housings)


def _one(frozen: Frozen, kind: RecordKind) -> ReadRecord:
    """The one record of a kind; a file without it is not ours, and the reader says so."""
    found: Iterator[RecordFile] = (file for file in frozen.files if file.kind == kind)
    return read_record(next(found))
