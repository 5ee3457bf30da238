"""A disputed pin: both sides with their evidence, and the one measurement that decides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.proof.evidence import Item
from builder.proof.grading import Grade
from builder.proof.identify import identify
from builder.proof.judging import Outcome, against_of, judge
from builder.proof.measuring_safety import safety_of
from builder.proof.shapes import Expected, Kind
from builder.proof.signatures import kinds_of_function, kinds_of_pin
from builder.proof.splitting import Measurement, deciding_measurement, spans_of
from builder.proof.weighing import mates_of, place_of


class Side(NamedTuple):
    """What one side says the pin is. `says` is "" when its readings fit no function."""

    says: Function | str
    strength: float
    items: tuple[Item, ...]


class Answer(NamedTuple):
    """What the pin reads if it is `function`: the line of each kind it may be of."""

    function: Function | str
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


def dispute_of(
    vehicle: Vehicle, pin: Pin, grade: Grade, defaults: HouseDefaults
) -> Dispute | None:
    """Return the dispute about a pin from its grade; None when the pin is not disputed."""
    if grade.band != "disputed":
        return None
    ours = tuple(item for item in grade.counted if item.supports)
    theirs = tuple(item for item in grade.counted if not item.supports)
    readings = tuple(_readings_against(vehicle, pin, theirs, defaults))
    other = _other_function(pin, theirs, [reading for reading, _ in readings], defaults)
    decides = _deciding(vehicle, pin, other, defaults) or _repeated(pin, other, readings)
    return Dispute(
        pin,
        Side(pin.function, grade.support, ours),
        Side(other, grade.opposition, theirs),
        decides,
        "" if decides else grade.raise_by,
    )


def _other_function(
    pin: Pin, theirs: Sequence[Item], readings: Sequence[Reading], defaults: HouseDefaults
) -> str:
    """What the other side holds the pin for: by its claims, else by what its readings fit."""
    said = next((item.says for item in theirs if item.says), "")
    if said or not readings:
        return said
    own = {id(reading) for reading in readings}
    sessions = {reading.session for reading in readings}
    shown = [r for r in pin.readings if r.session in sessions or id(r) in own]
    open_functions = identify(shown, defaults).tie
    return open_functions[0] if len(open_functions) == 1 else ""


def _readings_against(
    vehicle: Vehicle, pin: Pin, theirs: Sequence[Item], defaults: HouseDefaults
) -> Iterator[tuple[Reading, Expected]]:
    """Yield the readings that contradict the record's kind, each with the line it breaks."""
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
                yield reading, verdict.row


def _deciding(
    vehicle: Vehicle, pin: Pin, other: str, defaults: HouseDefaults
) -> Deciding | None:
    """The cheapest unloaded measurement in which the two functions never read alike."""
    if other in ("", pin.function):
        return None
    ours = kinds_of_pin(vehicle, pin, defaults)
    theirs = kinds_of_function(_as_function(other), defaults)
    found = deciding_measurement(ours, theirs)
    if found is None:
        return None
    answers = (_answer(pin.function, ours, found), _answer(other, theirs, found))
    return Deciding(found, answers, safety_of(found.state, found.quantity, found.against))


def _as_function(word: str) -> Function:
    return word  # type: ignore[return-value]  # the schema and the table know no other words


def _answer(function: str, kinds: Sequence[Kind], measurement: Measurement) -> Answer:
    rows = [spans_of(kind)[measurement].row for kind in kinds]
    return Answer(function, tuple({(row.low, row.high): row for row in rows}.values()))


def _repeated(
    pin: Pin, other: str, readings: Sequence[tuple[Reading, Expected]]
) -> Deciding | None:
    """The reading that speaks against the record, to be taken again before a witness."""
    if not readings:
        return None
    reading, row = readings[0]
    again = Measurement(reading.state, reading.quantity, row.against, reading.load)
    answers = (Answer(pin.function, (row,)), Answer(other, ()))
    return Deciding(again, answers, safety_of(again.state, again.quantity, again.against))
