"""What the book says today against a pin that is joined, and the reading that settles it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.declaring import answer, text
from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.job import JoinedPin
from builder.model.pin import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import GRADE_BANDS
from builder.planning.circuit.model import colours_of
from builder.planning.trust import RELIABLE, Trust, grade_by_readings, position_as_pin
from builder.proof.contradictions.dispute import dispute_of
from builder.proof.grading.grade import Grade
from builder.proof.grading.kept import kept_grade


@answer
class Recall:
    """One thing of today's book that speaks against what is joined."""

    at: str = text("The pin or fuse position, or empty for all of the job.", "A.7")
    because: str = text("What speaks against it.")
    reading: str = text("What to measure, or empty where no reading settles it.")


def pin_at(vehicle: Vehicle, at: str) -> Pin | None:
    """Return the pin of a cavity, "A.7", or of a fuse position; None where there is none."""
    for plug in vehicle.plugs:
        for pin in plug.pins:
            if f"{plug.id}.{pin.cavity}" == at:
                return pin
    found = (each for each in vehicle.fuse_positions if each.position == at)
    return next(map(position_as_pin, found), None)


@dataclass(frozen=True, slots=True)
class Today:
    """What the book says of a car today: its record, and what stops bar of it."""

    vehicle: Vehicle
    barred: Mapping[DataPath, str]
    defaults: HouseDefaults

    def grade(self, pin: Pin) -> Grade:
        """How far a pin can be relied on."""
        return kept_grade(self.vehicle, pin, self.defaults)


def recalls_of(pins: Sequence[JoinedPin], then: Vehicle, today: Today) -> Iterator[Recall]:
    """Yield what the book says today against each pin that is joined.

    `then` is the record of the car as the job was begun with it.
    """
    trust = Trust(today.vehicle, grade_by_readings(today.defaults), today.barred)
    whole = trust.whole_vehicle_bar
    if whole is not None:
        yield Recall("", whole, "")
    for joined in pins:
        pin = pin_at(today.vehicle, joined.at)
        if pin is None:
            because = "the record of the car does not describe it any more"
            yield Recall(joined.at, because, "Measure what it is.")
            continue
        said = (*_otherwise(joined, pin_at(then, joined.at), pin), *_against(joined, pin, trust))
        if said:
            yield Recall(joined.at, "; ".join(said), _reading(pin, today))


def _otherwise(joined: JoinedPin, was: Pin | None, pin: Pin) -> Iterator[str]:
    """What the record calls it now, where it called it otherwise."""
    if was is not None and _role(was) != _role(pin):
        yield f"the record of the car calls it {_role(pin)} now, and called it {_role(was)}"
    colour = colours_of(pin.wire) if pin.wire else ""
    if joined.wire and colour and colour != joined.wire:
        yield f"the record of the car says {colour} now; the wire that is joined is {joined.wire}"


def _role(pin: Pin) -> str:
    words = (pin.channel or "", pin.function.replace("_", " "), pin.leg or "")
    return " ".join(word for word in words if word)


def _against(joined: JoinedPin, pin: Pin, trust: Trust) -> Iterator[str]:
    """A stop on it, or evidence that has turned against it."""
    bar = trust.bar(pin.path)
    if bar is not None and bar != trust.whole_vehicle_bar:
        yield bar
    band = trust.grade(pin).band
    fell = joined.grade is not None and GRADE_BANDS.index(band) > GRADE_BANDS.index(joined.grade)
    if band == "disputed" or (fell and band not in RELIABLE):
        was = f" (that day: {joined.grade})" if joined.grade else ""
        yield f"it is {band} now{was}: {trust.grade(pin).why}"


def _reading(pin: Pin, today: Today) -> str:
    """What to measure: what decides a dispute, else what raises its grade."""
    grade = today.grade(pin)
    found = dispute_of(today.vehicle, pin, grade, today.defaults)
    return grade.raise_by if found is None else found.next_words
