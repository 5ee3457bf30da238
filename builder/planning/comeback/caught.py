"""Which line of the bay sheet finds each single fault, and whether that is before trim goes home.

A fault is put into the job as far as it is joined when a line is read; the first line that then
fails is what catches it. What nothing catches in time has a reason, and there are few.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from builder.model.vehicle import Vehicle
from builder.planning.circuit.model import Element
from builder.planning.circuit.nets import continuity
from builder.planning.comeback.as_joined import Absent, AsJoined
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.condition import Condition, Fault
from builder.planning.comeback.looks import Look
from builder.planning.comeback.words import FaultKind
from builder.planning.course.car_states import RADIO
from builder.planning.sheet_rows import Step
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import HowItStands
from builder.planning.work_pack import BayTest
from builder.proof.band import Where

Uncaught = Literal[
    "carries_nothing", "left_alone", "same_sound", "another_way", "few_milliamperes", "after_trim"
]
"""Why no line finds a fault before trim goes home: nothing of the job runs through it; it lies in
the car's own wires, which no step moves; every speaker plays the same as before; what lies beside
it carries on; it loses nothing at so little current; the lamp that tells of it is looked at with
the car whole."""

UNCAUGHT_WORDS: Final[dict[Uncaught, str]] = {
    "carries_nothing": "nothing of the job runs through it: it is spare, or closed off",
    "left_alone": "in the car's own wires, which no step moves",
    "same_sound": "every speaker plays the same as before, so no reading differs",
    "another_way": "a part beside it carries on, so no reading differs",
    "few_milliamperes": "at so few milliamperes a bad joint loses nothing; it shows once open",
    "after_trim": "found only with the car whole: after trim is home",
}

_OF_THE_CAR: Final[tuple[FaultKind, ...]] = ("car",)
"""Faults of the car's own, which no line of a job has to find."""
_HOME: tuple[HowItStands, ...] = ("on", "fitted")


@dataclass(frozen=True, slots=True)
class Catch:
    """One fault with the line that finds it before trim goes home, or with why none does.

    `line` is the first that finds it at all. `because` is None where it is in time, and where
    nothing says why it is not: a hole in the sheet.
    """

    fault: Fault
    line: BayTest | None
    in_time: bool
    because: Uncaught | None


def catches(causes: Causes) -> tuple[Catch, ...]:
    """Return what finds each single fault of a job, in the order of the faults."""
    return tuple(_Catching(causes).each())


def trim_home(steps: Sequence[Step], vehicle: Vehicle) -> int:
    """Return at which place among the steps the first part goes home for good.

    Args:
        steps: The steps of a job in their order.
        vehicle: The car, whose parts come off.
    """
    parts = {part.name for part in vehicle.access} | {RADIO}
    last = {
        moved.what: at
        for at, step in enumerate(steps)
        for moved in step.moves
        if moved.what in parts and moved.value in _HOME
    }
    return min(last.values(), default=len(steps))


class _Catching:
    """One job with everything that its sheet reads before and after trim goes home."""

    def __init__(self, causes: Causes) -> None:
        self.causes, self.job, self.joined = causes, causes.job, AsJoined(causes.job)
        pack = causes.job.pack
        trim = trim_home(pack.steps, causes.job.parts.vehicle)
        self.early = {id for step in pack.steps[:trim] for id in step.tests}

    def each(self) -> Iterator[Catch]:
        for fault in (*self.causes.faults, *self.causes.while_joining):
            if fault.kind not in _OF_THE_CAR:
                yield self._catch(fault)

    def _catch(self, fault: Fault) -> Catch:
        line = next(self._failing(fault), None)
        in_time = line is not None and line.id in self.early
        because = None if in_time else self._why(fault, line)
        return Catch(fault, line, in_time, because)

    def _failing(self, fault: Fault) -> Iterator[BayTest]:
        """The lines that fail, in the order of reading: what fails in the whole job is tried with
        the job as it stands then."""
        looks, whole = self.causes.looks, self._whole(fault)
        standing: dict[Absent, Condition] = {}
        for test in self.job.pack.tests:
            look = looks.get(test.id)
            if look is None or self._in_whole(test.id, look, fault, whole) == "in":
                continue
            absent = self.joined.absent_at(test.id)
            if absent not in standing:
                standing[absent] = self.joined.with_absent(absent, fault)
            if look(standing[absent]) != "in":
                yield test

    def _in_whole(self, line: str, look: Look, fault: Fault, whole: Condition) -> Where:
        """What a line finds with the job whole; that of a car that comes back is known for all."""
        if fault.id in self.causes.standing:
            return self.causes.found(line, fault)
        return look(whole)

    def _whole(self, fault: Fault) -> Condition:
        return self.causes.standing.get(fault.id) or Condition(self.job.healthy, fault)

    def _why(self, fault: Fault, line: BayTest | None) -> Uncaught | None:
        if line is not None:
            return "after_trim"
        if self._is_spare(fault):
            return "carries_nothing"
        if fault.kind == "changed_over" and self._of_the_car(fault):
            return "left_alone"
        if fault.kind == "exchanged" and self._plays_the_same(fault):
            return "same_sound"
        if fault.kind == "open" and self._goes_round(fault):
            return "another_way"
        return "few_milliamperes" if fault.kind == "weak" and self._draws_little(fault) else None

    def _is_spare(self, fault: Fault) -> bool:
        """Whether nothing runs through a joint or wire, or only to a branch of a loom that leads
        nowhere, and no part hangs on it."""
        index = self.job.index
        links = [link for link in self.job.circuit.links if fault.at in link.path]
        if any(index.unit_of(link.finishes).kind != "loom" for link in links):
            return False
        joint = index.joints.get(fault.at)
        ends = joint.joins if joint else ()
        parts = [end for end in ends if isinstance(index.owners.get(end), Element)]
        return not parts and fault.at in (*index.joints, *index.wires)

    def _of_the_car(self, fault: Fault) -> bool:
        """Whether no joint of a link is one of the job."""
        link = self.job.index.links[fault.at]
        return not any(made_by_us(self.job.index, each) for each in self.job.index.joints_on(link))

    def _plays_the_same(self, fault: Fault) -> bool:
        now, whole = self._whole(fault).day, self.job.whole.day
        return all(now.speaker_plays(x) == whole.speaker_plays(x) for x in self.job.added)

    def _goes_round(self, fault: Fault) -> bool:
        """Whether both ends of an open part still meet by what lies beside it."""
        part = self.job.index.elements.get(fault.at)
        nets = continuity(fault.circuit, parts=lambda each: each.kind != "capacitor")
        return part is not None and nets.together(*part.ends)

    def _draws_little(self, fault: Fault) -> bool:
        """Whether a link feeds or grounds what only switches: a coil of a few milliamperes."""
        links = [link for link in self.job.circuit.links if fault.at in link.path]
        kinds = {self.job.index.unit_of(link.begins).kind for link in links}
        return bool(kinds) and kinds <= {"battery_joiner", "turn_on_load"}
