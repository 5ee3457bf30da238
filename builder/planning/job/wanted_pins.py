"""Which pins of a vehicle to measure first: those that keep plans from being built."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from builder.model.words import STATES, Function, GradeBand, State
from builder.planning.plan import Plan, ProofReading

VisitMin = Callable[[Sequence[ProofReading]], float]
"""How long the hands need for a visit that takes some readings and joins nothing. [min]"""

_ORDER: dict[State, int] = {state: at for at, state in enumerate(STATES)}


class Standing(NamedTuple):
    """A pin's function, grade, how far its score lies under proven, what would raise it or ""."""

    function: Function
    grade: GradeBand
    room: float
    raise_by: str


@dataclass(frozen=True, slots=True)
class WantedPin:
    """A pin whose readings would help, and how much.

    `waiting` counts the plans and jobs that cannot be built before it is read; `relying` those
    that are built on it although it is not proven. `opens` is its share in the waiting ones: of
    three pins that one plan waits for, each has a third. `visit_min` is how long a visit takes that
    reads this pin and nothing else, from the whole car to the whole car; None without readings.
    `readings` are in the order they are taken; empty where `raise_by` says in words what helps.
    """

    vehicle: str
    title: str
    place: str  # "A.4", "F14"
    function: Function
    grade: GradeBand
    readings: tuple[ProofReading, ...]
    raise_by: str
    waiting: int
    relying: int
    opens: float
    room: float
    visit_min: float | None

    @property
    def rank(self) -> tuple[float, float, str, str]:
        """The order: most opened a minute, then most room under plans that stand."""
        per_min = self.opens / max(self.visit_min or 0.0, 1.0)
        return (-per_min, -self.relying * self.room, self.vehicle, self.place)


def wanted_pins(
    vehicle: str,
    title: str,
    plans: Iterable[Plan],
    standing: Mapping[str, Standing],
    visit_min: VisitMin,
) -> list[WantedPin]:
    """Return the pins of a vehicle worth measuring, best first.

    Args:
        vehicle: The record's id.
        title: Its title.
        plans: Every plan of the vehicle, and the plans of the jobs on it.
        standing: Of each pin and fuse position by its name ("A.4", "F14").
        visit_min: How long a visit takes. [min]
    Source: the weighing is this project's choice.
    """
    every = tuple(plans)
    probes = [plan for plan in every if plan.kind == "probe_plan" and plan.tests]
    asked = _asked(probes)
    share = _shares(probes)
    relying = _relying(every)
    found = [
        WantedPin(
            vehicle, title, place, grade.function, grade.grade,
            asked.get(place, ()), "" if place in asked else grade.raise_by,
            sum(place in _places(plan) for plan in probes), relying.get(place, 0),
            share.get(place, 0.0), grade.room,
            visit_min(asked[place]) if place in asked else None,
        )
        for place, grade in _candidates(asked, relying, standing)
    ]  # fmt: skip
    return sorted(found, key=lambda pin: pin.rank)


def _candidates(
    asked: Mapping[str, object], relying: Mapping[str, int], standing: Mapping[str, Standing]
) -> Iterator[tuple[str, Standing]]:
    for place, grade in standing.items():
        if place in asked or (relying.get(place) and grade.room > 0 and grade.raise_by):
            yield place, grade


def _asked(probes: Sequence[Plan]) -> dict[str, tuple[ProofReading, ...]]:
    """The readings that probe plans ask for, by place, in the order of the states."""
    found: dict[str, dict[ProofReading, None]] = {}
    for plan in probes:
        for reading in plan.tests:
            found.setdefault(_place(reading), {})[reading] = None
    return {
        place: tuple(sorted(readings, key=lambda reading: _ORDER[reading.state]))
        for place, readings in found.items()
    }


def _place(reading: ProofReading) -> str:
    return reading.fuse_position or f"{reading.plug}.{reading.cavity}"


def _places(plan: Plan) -> set[str]:
    return {_place(reading) for reading in plan.tests}


def _shares(probes: Sequence[Plan]) -> dict[str, float]:
    found: dict[str, float] = {}
    for plan in probes:
        places = _places(plan)
        for place in places:
            found[place] = found.get(place, 0.0) + 1 / len(places)
    return found


def _relying(plans: Sequence[Plan]) -> dict[str, int]:
    """How many plans that can be built rest on each place."""
    found: dict[str, int] = {}
    for plan in plans:
        if plan.kind == "tap_plan":
            for place in {_place(reading) for reading in plan.tests}:
                found[place] = found.get(place, 0) + 1
    return found
