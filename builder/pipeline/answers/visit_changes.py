"""What a visit changes: grades, disputes, and the plans and jobs that stand on them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from builder.book import RecordFile
from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import GRADE_BANDS, Function, GradeBand
from builder.pipeline.answers.packs import MadePack, packs_of
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.jobs import CheckedJob
from builder.pipeline.checking.plan_sum import plan_sum
from builder.pipeline.checking.proofs import known_grades
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.planning.plan import Plan
from builder.planning.plan_json import plan_as_json
from builder.planning.trust import position_as_pin
from builder.planning.words import PlanKind, UseKind
from builder.planning.work_pack import BayTest
from builder.proof.grading.grade import Grade, grade_pin
from builder.proof.pin_proof import PinProof, prove


class GradeChange(NamedTuple):
    """The grade of a pin or fuse position before and after, with scores from 0 to 1."""

    place: str
    function: Function
    before: GradeBand
    score_before: float
    after: GradeBand
    score_after: float

    @property
    def fell(self) -> bool:
        """Whether it is relied on less."""
        worse = GRADE_BANDS.index(self.after) > GRADE_BANDS.index(self.before)
        return worse or (self.after == self.before and self.score_after < self.score_before)


class Conflict(NamedTuple):
    """Readings of the visit that speak against the record, and what would decide, or "".

    `first` is what only looks like a contradiction and is to be ruled out before, or "".
    """

    place: str
    said: str
    first: str
    decides: str
    disputed: bool


class Recalled(NamedTuple):
    """A job or plan that uses a pin whose standing fell. `built` is the newest day its sheet
    came back, "" when it never did; `begun` the day from which the plan of a job stands, or ""."""

    kind: UseKind
    name: str
    places: tuple[str, ...]
    before: PlanKind
    after: PlanKind
    built: str
    begun: str = ""


class PlanChange(NamedTuple):
    """A plan or job whose kind changed."""

    kind: UseKind
    name: str
    before: PlanKind
    after: PlanKind


@dataclass(frozen=True, slots=True)
class Change:
    """What a visit changes for its vehicle."""

    grades: tuple[GradeChange, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    recalled: tuple[Recalled, ...] = ()
    plans: tuple[PlanChange, ...] = ()

    @property
    def opened(self) -> tuple[PlanChange, ...]:
        """Plans and jobs that can be built now, and could not before."""
        return tuple(plan for plan in self.plans if plan.after == "tap_plan")


@dataclass(frozen=True, slots=True)
class Standing:
    """How a vehicle stands in a checked book: its grades, plans and jobs."""

    read: ReadRecord
    vehicle: Vehicle
    proofs: Mapping[DataPath, PinProof]
    positions: Mapping[DataPath, Grade]
    plans: Mapping[str, Plan]
    packs: Mapping[str, MadePack]
    checked: CheckedBook

    def tests_of(self, job: str | None) -> tuple[BayTest, ...]:
        """The lines of a job's sheet; none when it has none now."""
        made = self.packs.get(job or "")
        return made.planned.tests if made else ()

    def sum_of(self, job: str | None, converter: str | None) -> str:
        """The sum that stands at the foot of the job's or plan's sheet today; "" without one."""
        if job:
            return self.packs[job].digest if job in self.packs else ""
        if not converter:
            return self.read.digest[:8]
        return plan_sum(plan_as_json(self.plans[converter])) if converter in self.plans else ""


def standing_of(checked: CheckedBook, vehicle_id: str) -> Standing:
    """Return how a vehicle of a checked book stands.

    Raises:
        KeyError: the book has no usable vehicle of that id.
    """
    files = [f for f in checked.book.files() if f.name == ("vehicle", vehicle_id)]
    if not files:
        raise KeyError(vehicle_id)
    mine = [job for job in checked.jobs if job.job and job.job.vehicle == vehicle_id]
    return standing_with(checked, files[0], mine, checked.gate())


def standing_with(
    checked: CheckedBook, file: RecordFile, jobs: Sequence[CheckedJob], gate: Gate
) -> Standing:
    """The same of the vehicle in a file, with the jobs that name it; it raises the same."""
    read = as_counted(read_record(file), checked.shelf)
    if not isinstance(read.record, Vehicle):
        raise KeyError(file.stem)
    vehicle, shelf = read.record, checked.shelf
    proofs = prove(vehicle, shelf.defaults, shelf.housings)
    decided = plans_of(read, vehicle, shelf, gate, known_grades(proofs, shelf.defaults))
    made = packs_of(checked, jobs, {file.stem: file}, gate)
    packs = {each.parts.job.id: each for each in made}
    plans = {one.plan.converter: one.plan for one in decided}
    return Standing(
        read, vehicle, proofs, _fuse_grades(vehicle, shelf.defaults), plans, packs, checked
    )


def _fuse_grades(vehicle: Vehicle, defaults: HouseDefaults) -> dict[DataPath, Grade]:
    positions = vehicle.fuse_positions
    return {each.path: grade_pin(vehicle, position_as_pin(each), defaults) for each in positions}


def changed(before: Standing, after: Standing, session: str) -> Change:
    """Return what changed for a vehicle since the readings of `session` stand in its record.

    Readings go behind those that were there, so every pin has the same path on both sides.
    """
    if before is after:
        return Change()
    grades = tuple(_grades(before, after))
    fell = {path for path, change in _by_path(after, grades).items() if change.fell}
    return Change(
        grades,
        tuple(_conflicts(before, after, session)),
        tuple(_recalled(before, after, fell)),
        tuple(_kinds(before, after)),
    )


def _names(vehicle: Vehicle) -> Iterator[tuple[DataPath, str, Function]]:
    for plug in vehicle.plugs:
        for pin in plug.pins:
            yield pin.path, f"{plug.id}.{pin.cavity}", pin.function
    for each in vehicle.fuse_positions:
        yield each.path, each.position, each.function


def _grades(before: Standing, after: Standing) -> Iterator[GradeChange]:
    old: dict[DataPath, PinProof | Grade] = {**before.proofs, **before.positions}
    new: dict[DataPath, PinProof | Grade] = {**after.proofs, **after.positions}
    for path, place, function in _names(after.vehicle):
        one, other = old[path], new[path]
        if one.band != other.band or abs(one.score - other.score) > 1e-9:
            yield GradeChange(place, function, one.band, one.score, other.band, other.score)


def _by_path(after: Standing, grades: tuple[GradeChange, ...]) -> dict[DataPath, GradeChange]:
    by_place = {change.place: change for change in grades}
    return {p: by_place[place] for p, place, _ in _names(after.vehicle) if place in by_place}


def _conflicts(before: Standing, after: Standing, session: str) -> Iterator[Conflict]:
    """Yield each pin that the visit speaks against, or that is disputed since."""
    for plug in after.vehicle.plugs:
        for pin in plug.pins:
            found = _conflict(f"{plug.id}.{pin.cavity}", pin, before, after, session)
            if found is not None:
                yield found


def _conflict(
    place: str, pin: Pin, before: Standing, after: Standing, session: str
) -> Conflict | None:
    proof = after.proofs[pin.path]
    against = [item for item in proof.items if not item.supports and session in item.sessions]
    disputed = proof.dispute is not None and before.proofs[pin.path].dispute is None
    if not against and not disputed:
        return None
    said = "; ".join(dict.fromkeys(item.because for item in against)) or proof.why
    decides = proof.dispute.next_words if proof.dispute else proof.raise_by
    first = proof.attack.first_advice if proof.attack else ""
    return Conflict(place, said, first, decides, proof.dispute is not None)


def _recalled(before: Standing, after: Standing, fell: set[DataPath]) -> Iterator[Recalled]:
    names = {path: place for path, place, _ in _names(before.vehicle)}
    for job, made in before.packs.items():
        used = _used(made.planned.plan, fell, names)
        if used:
            results = made.parts.job.results
            built = max((result.date for result in results), default="")
            now = after.packs[job].pack.kind if job in after.packs else "no_plan"
            begun = made.standing.begun
            yield Recalled("job", job, used, made.pack.kind, now, built, begun)
    for converter, plan in before.plans.items():
        used = _used(plan, fell, names)
        if used:
            now = after.plans[converter].kind if converter in after.plans else "no_plan"
            yield Recalled("plan", converter, used, plan.kind, now, "")


def _used(plan: Plan, fell: set[DataPath], names: Mapping[DataPath, str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names[path] for path in plan.used_paths if path in fell))


def _kinds(before: Standing, after: Standing) -> Iterator[PlanChange]:
    for job, made in after.packs.items():
        if made.standing.begun:
            continue  # its plan stands; what speaks against it is a recall
        was = before.packs[job].pack.kind if job in before.packs else "no_plan"
        if was != made.pack.kind:
            yield PlanChange("job", job, was, made.pack.kind)
    for converter, plan in after.plans.items():
        was = before.plans[converter].kind if converter in before.plans else "no_plan"
        if was != plan.kind:
            yield PlanChange("plan", converter, was, plan.kind)
