"""The questions of a new visit: who, when, which car, and what the meter showed."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.pin_place import place_of
from builder.editing.drafts.question import AnswerError, Answers, Question, every, one
from builder.editing.visit_naming import in_session, name_of_visit
from builder.findings import DataPath
from builder.model.reading import Reading
from builder.model.words import BATTERY_NEGATIVE
from builder.parsing.reading_figures import ReadingTextError
from builder.parsing.reading_text import read_reading

_FIRST: DataPath = ("sessions", 0)
_BESIDE = ("minutes", "load", "against", "battery_v")
"""What a line can say of a reading beside its state and figure."""


def reading_line(text: str) -> tuple[str, int | str, dict[str, Any]]:
    """`PLACE STATE FIGURE …`: the plug, the cavity and the reading as a visit has it.

    Raises:
        AnswerError: it begins with no plug and cavity, or is no reading.
    """
    place = place_of(text, ())
    if place is None or not place.plug:
        raise AnswerError(f'"{text}" begins with no plug and cavity, like A.4')
    cavity = int(place.cavity) if place.cavity.isdigit() else place.cavity
    return place.plug, cavity, reading_of(place.rest)


def reading_of(text: str) -> dict[str, Any]:
    """`STATE FIGURE …`: the reading as a record has it, without its visit.

    Raises:
        AnswerError: it is no reading.
    """
    try:
        return _facts(read_reading(text))
    except ReadingTextError as error:
        raise AnswerError(f"{error.slip.message}; {error.slip.help}") from error


def _facts(reading: Reading) -> dict[str, Any]:
    usual = {"load": "none", "against": BATTERY_NEGATIVE}
    said = {key: getattr(reading, key) for key in _BESIDE}
    said["minutes"] = _whole(reading.minutes)
    beside = {key: value for key, value in said.items() if value not in (None, usual.get(key))}
    value = "open" if reading.value is None else reading.value
    return {"state": reading.state, **beside, "quantity": reading.quantity, "value": value}


def _whole(minutes: float | None) -> float | None:
    """Minutes as they are typed, `45` and not `45.0`."""
    return int(minutes) if minutes is not None and minutes.is_integer() else minutes


QUESTIONS = (
    Question("vehicle", "Id of the vehicle's record", ("vehicle",)),
    Question("by", "Who measured: your shop or handle", (*_FIRST, "by")),
    Question("date", "The day, YYYY-MM-DD", (*_FIRST, "date")),
    Question("tag", "Your own word for the car, never its chassis number", (*_FIRST, "car", "tag")),
    Question("year", "Its model year", (*_FIRST, "car", "year"), ""),
    Question("built", "Its month of build, YYYY-MM", (*_FIRST, "car", "built"), ""),
    Question("trim", "Its trim", (*_FIRST, "car", "trim"), ""),
    Question("method", "meter or scope", (*_FIRST, "method"), "meter"),
    Question(
        "read-from", "The face that you counted on: wire_side, mating_side, moulded or unknown",
        (*_FIRST, "read_from"),
    ),
    Question(
        "against", "The other probe on: battery_negative or body", (*_FIRST, "against"),
        BATTERY_NEGATIVE, asked=False,
    ),
    Question(
        "reading", "One reading a line: A.4 run VALUE V battery VOLTS", (), "", many=True,
        read=reading_line,
    ),
    Question(
        "data", "measured (a real thing) or invented", ("data",), "measured", asked=False,
    ),
)  # fmt: skip


def finish(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The record with its name, and its readings by place."""
    session = data["sessions"][0]
    places: dict[tuple[str, int | str], list[dict[str, Any]]] = {}
    for line in every(answers, "reading"):
        plug, cavity, facts = reading_line(line)
        places.setdefault((plug, cavity), []).append(facts)
    listed: list[dict[str, Any]] = [
        {"plug": plug, "cavity": cavity, "readings": readings}
        for (plug, cavity), readings in places.items()
    ]
    name = one(answers, "id") or name_of_visit(session, listed)
    data |= {"id": name, "sessions": [{"id": name, **session}]}
    data["places"] = in_session(name, listed)
    return data
