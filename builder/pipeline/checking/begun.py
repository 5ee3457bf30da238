"""A job that is begun: the pack it was begun with, whatever its results and the book say since.

What is joined stays joined. So the pack of such a job is made from the records as they stood: from
the file that `begin` wrote, or, of a job that nobody wrote it for, from the book without what came
later. Results and later findings change the job's state, and never the pack.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from builder.book import Name
from builder.findings import Finding, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.results import newest
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.begun_inputs import Inputs, Source, inputs_of
from builder.pipeline.checking.begun_rest import named_pack, unknown_pack
from builder.pipeline.checking.closing import as_built_pack, recalled_pack
from builder.pipeline.checking.gate import Gate, names_of_housings, still_open
from builder.pipeline.checking.privacy import records_of
from builder.pipeline.checking.records import ReadRecord
from builder.planning.job.as_built import as_built_of
from builder.planning.job.recalled import Recall, Today, recalls_of
from builder.planning.job.standing import (
    JobStanding,
    is_joined,
    line_states,
    lines_in,
    state_of,
    was_joined,
)
from builder.planning.power.asleep_draws import PARKED_BEFORE
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.registry import BY_ID

_OF_RESULTS = frozenset({"results", "follow_up", "accept"})
"""Parts of a job that say how it went: what a rule finds there is a result, no later doubt."""


@dataclass(frozen=True, slots=True)
class BegunPack:
    """The pack that a job was begun with, what it was made from, and the same pack with what was
    read before work began in the places that it left open."""

    parts: JobParts
    pack: WorkPack
    filled: WorkPack
    source: Source


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
    for inputs in inputs_of(read, job, shelf, car, begun_day(job)):
        pack = inputs.pack(results=False)
        last = BegunPack(inputs.parts, pack, pack, inputs.source)
        if pack.kind == "tap_plan":
            joined = job.begun is not None or is_joined(pack.tests, job.results)
            return replace(last, filled=_filled(inputs, pack)) if joined else None
    if job.begun is None and not was_joined(job.results):
        return None
    return _rest(last, job, shelf, car)


def _rest(
    last: BegunPack | None, job: Job, shelf: Shelf, car: ReadRecord | None
) -> BegunPack | None:
    """What is left where no record plans the job: what is joined, as it was written down; of what
    nobody wrote down, that nobody knows it."""
    if last is None and car is not None and isinstance(car.record, Vehicle):
        parts, pack = named_pack(job, shelf, car.record)
        last = BegunPack(parts, pack, pack, "named")
    if last is None:
        return None
    if job.begun is None:
        pack = unknown_pack(last.pack)
    else:
        pack = as_built_pack(last.pack, last.parts, job.begun.as_built)
    return replace(last, pack=pack, filled=pack)


def _filled(inputs: Inputs, pack: WorkPack) -> WorkPack:
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
