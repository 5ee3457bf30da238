"""One reading against one signature: met, contradicted, or not informative."""

from __future__ import annotations

import math
from enum import Enum
from typing import NamedTuple

from builder.model.words import GROUND_REFERENCES
from builder.proof.band import where_in
from builder.proof.signatures.row_making import DEAD
from builder.proof.signatures.shapes import Against, Expected, Kind
from builder.proof.wording import Measured, limits, reading_words


class Outcome(Enum):
    """What a reading says of a signature."""

    MET = "met"
    CONTRADICTED = "contradicted"
    SILENT = "not informative"


class Judgement(NamedTuple):
    """The verdict on one reading, with its reason as a sentence."""

    outcome: Outcome
    sentence: str
    row: Expected | None


def against_of(
    point: str, plug_id: str, partners: frozenset[tuple[str, str]] = frozenset()
) -> Against:
    """Say what a reference point is to a pin of plug `plug_id` whose pair mates are `partners`.

    Args:
        point: "battery_negative", "body", "4" or "B.4".
        plug_id: The plug of the pin that was measured.
        partners: (plug, cavity) of the other wires of the pair.
    """
    if point in GROUND_REFERENCES:
        return "ground"
    plug, dot, cavity = point.partition(".")
    named = (plug, cavity) if dot else (plug_id, point)
    return "other_leg" if named in partners else "elsewhere"


def find_row(reading: Measured, kind: Kind, against: Against) -> Expected | None:
    """Return the line of `kind` that speaks of this reading, or None."""
    for row in kind.cells.get((reading.state, reading.quantity), ()):
        if row.against == against and (not row.loads or reading.load in row.loads):
            return row
    return None


def outcome_of(reading: Measured, row: Expected) -> Outcome:
    """Judge a reading by the line that speaks of it. Nothing is rounded."""
    where = where_in(row.band, reading.value, reading.battery_v)
    if where == "unjudged":
        return Outcome.SILENT
    minutes = (reading.minutes or 0.0) if reading.state == "asleep" else math.inf
    if where in ("in", "none"):
        return Outcome.MET if minutes >= row.meets_from_min else Outcome.SILENT
    if row.tolerated and where_in(row.tolerated, reading.value, reading.battery_v) == "in":
        return Outcome.SILENT
    if row.strict and minutes >= row.contradicts_from_min:
        return Outcome.CONTRADICTED
    return Outcome.SILENT


def judge(reading: Measured, kind: Kind, against: Against) -> Judgement:
    """Judge one reading against one signature and give the reason.

    Args:
        reading: The figure; volts come with battery volts where the line moves with them.
        kind: The signature.
        against: What the reference point is to the pin; see `against_of`.
    """
    row = find_row(reading, kind, against)
    if row is None:
        return Judgement(Outcome.SILENT, _why_silent(reading, kind), None)
    outcome = outcome_of(reading, row)
    return Judgement(outcome, _sentence(reading, row, kind, outcome), row)


def _why_silent(reading: Measured, kind: Kind) -> str:
    said = reading_words(reading)
    if reading.quantity == "ohm" and reading.state not in DEAD:
        return f"{said}: ohms are read on dead circuits only, plug off or battery off"
    return f"{said}: says nothing about {with_article(kind.name)}"


def _sentence(reading: Measured, row: Expected, kind: Kind, outcome: Outcome) -> str:
    said = reading_words(reading)
    band = limits(row.low, row.high, reading.battery_v, row.quantity)
    if outcome is Outcome.MET:
        return f"{said}, as {with_article(kind.name)} should: {band}"
    if outcome is Outcome.CONTRADICTED:
        return f"{said}, but {with_article(kind.name)} reads {band}"
    return f"{said}: {_why_undecided(reading, row)}"


def with_article(name: str) -> str:
    """A kind with its article: "an accessory supply"."""
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"


def _why_undecided(reading: Measured, row: Expected) -> str:
    if row.needs_battery and reading.battery_v is None:
        return "without battery volts it cannot be judged"
    if reading.state == "asleep" and (reading.minutes or 0.0) < row.meets_from_min:
        return f"asleep counts from {row.meets_from_min:g} min on"
    if row.tolerated:
        band = limits(row.low, row.high, reading.battery_v, row.quantity)
        return f"{row.note}: {band} is expected"
    return row.note or "it fits more than one case"
