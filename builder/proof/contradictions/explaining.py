"""One possible explanation of evidence against a pin, and the case it is tried on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.plugs import Plug, Reading
from builder.model.vehicle import Vehicle
from builder.proof.grading.item import Item
from builder.proof.grading.visits import judged_visit
from builder.proof.grading.weighing import Place, Tally, Visit, mates_of
from builder.proof.signatures.of_pins import kinds_of_pin

Verdict = Literal["fits", "does not fit", "cannot be told"]
Cause = Literal["face", "scope", "place", "state", "dispute"]

TITLES: dict[Cause, str] = {
    "face": "counted from the other face, or upside down",
    "scope": "another car: the record covers two kinds",
    "place": "another plug or another cavity",
    "state": "another state of the car, or not yet asleep",
    "dispute": "a real contradiction",
}
"""What each explanation says, most likely first."""


class Explanation(NamedTuple):
    """One explanation: whether it fits and why, and what to do or type when it does.

    `doubts` are the sessions that it puts in doubt.
    """

    cause: Cause
    verdict: Verdict
    why: str
    do: str = ""
    doubts: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """The explanation in a few words."""
        return TITLES[self.cause]


@dataclass(frozen=True, slots=True)
class Case:
    """A pin with what counts for it (`ours`) and against it (`theirs`)."""

    vehicle: Vehicle
    place: Place
    ours: tuple[Item, ...]
    theirs: tuple[Item, ...]
    housings: Mapping[str, Housing]
    defaults: HouseDefaults

    @property
    def plug(self) -> Plug | None:
        """The plug of the pin; None for a fuse position."""
        return self.vehicle.plug(self.place.plug)

    @property
    def housing(self) -> Housing | None:
        """The shell of the plug, if this book has it."""
        return self.housings.get(self.plug.housing) if self.plug else None

    @property
    def name(self) -> str:
        """Plug and cavity, "A.4"."""
        return name_of(self.place)

    def measured(self) -> tuple[Item, ...]:
        """What was measured against the pin."""
        return tuple(item for item in self.theirs if item.measured)

    def claimed(self) -> tuple[Item, ...]:
        """What is only said against the pin."""
        return tuple(item for item in self.theirs if not item.measured)


def name_of(place: Place) -> str:
    """Plug and cavity, "A.4"; the position alone for a fuse."""
    return f"{place.plug}.{place.pin.cavity}" if place.plug else place.pin.cavity


def readings_at(place: Place, item: Item) -> tuple[Reading, ...]:
    """What the visits of an item read at a place."""
    return tuple(reading for reading in place.pin.readings if reading.session in item.sessions)


def best_fit(case: Case, place: Place, readings: tuple[Reading, ...]) -> Tally | None:
    """How readings stand to what the record says of a place; None when nothing speaks of them."""
    if not readings:
        return None
    mates, visit = mates_of(case.vehicle, place), Visit(readings, ())
    choices = kinds_of_pin(case.vehicle, place.pin, case.defaults)
    tallies = judged_visit(case.vehicle, place, mates, visit, choices, case.defaults)
    best = min(tallies, key=Tally.rank, default=None)
    return best if best is not None and (best.faults or best.met) else None


def listed(words: list[str] | tuple[str, ...], most: int = 4) -> str:
    """Words with commas; what is over `most` is counted."""
    more = f" and {len(words) - most} more" if len(words) > most else ""
    return ", ".join(words[:most]) + more
