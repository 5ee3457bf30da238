"""A disputed pin: both sides with their evidence, and the one measurement that decides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.proof.grading.grade import Grade
from builder.proof.grading.item import Item
from builder.proof.grading.weighing import mates_of, place_of
from builder.proof.identify.naming import identify
from builder.proof.identify.splitting import Measurement, deciding_measurement, spans_of
from builder.proof.judging import Outcome, against_of, judge
from builder.proof.measuring_safety import safety_of
from builder.proof.mistaken import BY_HAND, undecided
from builder.proof.signatures.of_pins import kinds_of_function, kinds_of_pin
from builder.proof.signatures.shapes import Against as ReferencePoint
from builder.proof.signatures.shapes import Expected, Kind


class Side(NamedTuple):
    """What one side says the pin is. `says` is None when its readings fit no one function."""

    says: Function | None
    strength: float
    items: tuple[Item, ...]


class Answer(NamedTuple):
    """What the pin reads if it is `function`: the line of each kind it may be of.

    None is what the other side measured and no function explains: anything but the first answer.
    """

    function: Function | None
    rows: tuple[Expected, ...]


class Deciding(NamedTuple):
    """The measurement that settles a dispute, with an answer for each side, and what to mind."""

    measurement: Measurement
    answers: tuple[Answer, ...]
    safety: str


class Dispute(NamedTuple):
    """A disputed pin. `decides` is None when no single reading of the table tells them apart;
    `instead` then says what helps."""

    pin: Pin
    ours: Side
    theirs: Side
    decides: Deciding | None
    instead: str

    @property
    def next_words(self) -> str:
        """What settles it, for a person, with what to mind."""
        if self.decides is None:
            return self.instead
        return f"{self.decides.measurement.words}. {self.decides.safety}".strip()


def dispute_of(vehicle: Vehicle, pin: Pin, grade: Grade, defaults: HouseDefaults) -> Dispute | None:
    """Return the dispute about a pin from its grade; None when the pin is not disputed."""
    if grade.band != "disputed":
        return None
    ours = tuple(item for item in grade.counted if item.supports)
    theirs = tuple(item for item in grade.counted if not item.supports)
    other = _other_function(pin, theirs, defaults)
    decides = deciding_of(vehicle, pin, theirs, defaults)
    return Dispute(
        pin,
        Side(pin.function, grade.support, ours),
        Side(other, grade.opposition, theirs),
        decides,
        "" if decides else settle_by_hand(pin, theirs, defaults) or grade.raise_by,
    )


def deciding_of(
    vehicle: Vehicle, pin: Pin, theirs: Sequence[Item], defaults: HouseDefaults
) -> Deciding | None:
    """Return the one measurement that decides between the record and what speaks against it.

    Where no measurement of the table parts the two, it is the reading against the record, to be
    taken again; None when there is no reading either.
    """
    other = _other_function(pin, theirs, defaults)
    found = _deciding(vehicle, pin, other, defaults)
    if found is not None:
        return found
    return _repeated(pin, other, tuple(readings_against(vehicle, pin, theirs, defaults)))


def settle_by_hand(pin: Pin, theirs: Sequence[Item], defaults: HouseDefaults) -> str:
    """Return what tells the two functions apart where no reading does, or ""."""
    other = _other_function(pin, theirs, defaults)
    if other is None or frozenset({pin.function, other}) not in BY_HAND:
        return ""
    return undecided(pin.function, other)


def _other_function(pin: Pin, theirs: Sequence[Item], defaults: HouseDefaults) -> Function | None:
    """What the other side holds the pin for: by its claims, else by what its readings fit."""
    said = next((item.says for item in theirs if item.says), None)
    sessions = {name for item in theirs for name in item.sessions}
    shown = [reading for reading in pin.readings if reading.session in sessions]
    if said or not shown:
        return said
    fitting = identify(shown, defaults).tie
    return fitting[0] if len(fitting) == 1 else None


class Against(NamedTuple):
    """A reading that contradicts the record: the line it breaks, of which kind, and its
    reference point."""

    reading: Reading
    row: Expected
    kind: Kind
    against: ReferencePoint


def readings_against(
    vehicle: Vehicle, pin: Pin, theirs: Sequence[Item], defaults: HouseDefaults
) -> Iterator[Against]:
    """Yield the pin's readings that contradict the record's kind."""
    place = place_of(vehicle, pin)
    points = frozenset(mate.cavity for mate in mates_of(vehicle, place))
    table = {kind.id: kind for kind in kinds_of_pin(vehicle, pin, defaults)}
    for item in theirs:
        for reading in pin.readings:
            if reading.session not in item.sessions or item.kind not in table:
                continue
            against = against_of(reading.against, place.plug, points)
            verdict = judge(reading, table[item.kind], against)
            if verdict.outcome is Outcome.CONTRADICTED and verdict.row:
                yield Against(reading, verdict.row, table[item.kind], against)


def _deciding(
    vehicle: Vehicle, pin: Pin, other: Function | None, defaults: HouseDefaults
) -> Deciding | None:
    """The cheapest unloaded measurement in which the two functions never read alike."""
    if other is None:
        return None
    ours = kinds_of_pin(vehicle, pin, defaults)
    theirs = kinds_of_function(other, defaults)
    found = deciding_measurement(ours, theirs)
    if found is None:
        return None
    return _decided_by(found, _answer(pin.function, ours, found), _answer(other, theirs, found))


def _answer(function: Function, kinds: Sequence[Kind], measurement: Measurement) -> Answer:
    rows = [spans_of(kind)[measurement].row for kind in kinds]
    return Answer(function, tuple({(row.low, row.high): row for row in rows}.values()))


def _repeated(pin: Pin, other: Function | None, readings: Sequence[Against]) -> Deciding | None:
    """The reading that speaks against the record, to be taken again before a witness."""
    if not readings:
        return None
    reading, row = readings[0].reading, readings[0].row
    again = Measurement(reading.state, reading.quantity, row.against, reading.load)
    theirs = other if other != pin.function else None
    return _decided_by(again, Answer(pin.function, (row,)), Answer(theirs, ()))


def _decided_by(measurement: Measurement, ours: Answer, theirs: Answer) -> Deciding:
    safety = safety_of(measurement.state, measurement.quantity, measurement.against)
    if measurement.load != "none":
        safety = LOADED
    return Deciding(measurement, (ours, theirs), safety)


LOADED = "Read it open first, and put no more on it than both sides say it stands."
"""What to mind where the deciding reading is a loaded one."""
