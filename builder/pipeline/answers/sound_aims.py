"""A recording at an amplifier's outputs against the tune that the job asked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from builder.figures import shown
from builder.planning.tune_sheet import TuneRow
from builder.sound.reading import PairFacts
from builder.sound.results import Measured, Refused, Result
from builder.units import Decibels, Hertz

CORNER_SHARE: Final = 0.2
"""How far from its aim, as a ratio less one, a corner may be: a control without figures is set no
nearer."""
MOST_UNEVEN_DB: Final = 4.0
"""How far above its own level a channel may rise inside its band. Both chosen by this project."""


class Aimed(NamedTuple):
    """One aim of a channel: what was looked at, what is so, what was asked, and what to change.

    `passes` is None where the recording cannot tell; `change` then says why.
    """

    speaker: str
    what: str
    found: str
    aim: str
    passes: bool | None
    change: str


def aims_of(row: TuneRow, facts: PairFacts) -> Iterator[Aimed]:
    """Yield each aim of a channel's tune against what its output was recorded to do.

    Args:
        row: The tune of the channel.
        facts: What the recording says of its output, with its speaker or a resistor on it.
    """
    low = max(row.high_pass_hz or 0.0, row.subsonic_hz or 0.0)
    if low:
        yield _corner(row, "high-pass", facts.lower_edge_hz, low)
    if row.low_pass_hz:
        yield _corner(row, "low-pass", facts.upper_edge_hz, row.low_pass_hz)
    yield _evenness(row, facts)
    yield _clean(row, facts)


def _corner(row: TuneRow, what: str, edge: Result, aim_hz: Hertz) -> Aimed:
    aim = f"{shown(aim_hz, 0)} Hz"
    if isinstance(edge, Refused):
        return Aimed(row.speaker, what, "not told", aim, None, edge.reason)
    found = f"{shown(edge.value, 0)} ± {shown(edge.plus_minus, 0, beside=0.0)} Hz"
    ratio = edge.value / aim_hz
    passes = 1 / (1 + CORNER_SHARE) <= ratio <= 1 + CORNER_SHARE
    turn = "down" if ratio > 1 else "up"
    change = "" if passes else f"turn the {what} of {row.set_at} {turn} by {shown(_away(ratio), 1)}"
    return Aimed(row.speaker, what, found, aim, passes, f"{change} times" if change else "")


def _away(ratio: float) -> float:
    return max(ratio, 1 / ratio)


def _evenness(row: TuneRow, facts: PairFacts) -> Aimed:
    """How far it rises above its own level: what an equaliser or a wrong gain leaves."""
    what, aim = "evenness", f"at most {MOST_UNEVEN_DB:g} dB above its level"
    told = [(hz, each.value) for hz, each in facts.shape if isinstance(each, Measured)]
    if not told:
        return Aimed(row.speaker, what, "not told", aim, None, "nothing of it is heard clearly")
    hz, most_db = max(told, key=lambda each: each[1])
    found = f"{shown(most_db, 1, beside=MOST_UNEVEN_DB)} dB above it at {shown(hz, 0)} Hz"
    passes = most_db <= MOST_UNEVEN_DB
    change = "" if passes else _flatten(row, hz, most_db)
    return Aimed(row.speaker, what, found, aim, passes, change)


def _flatten(row: TuneRow, hz: Hertz, most_db: Decibels) -> str:
    if row.equaliser:
        return f"cut {shown(most_db, 1)} dB at {shown(hz, 0)} Hz at {row.set_at}"
    return f"{row.set_at} has no equaliser on record: correction off, or less of a bass control"


def _clean(row: TuneRow, facts: PairFacts) -> Aimed:
    """That nothing bends before the radio's own loudest clean step."""
    what, aim = "clean", "the first volume step, at least"
    found = facts.clean_step
    if isinstance(found, Refused):
        return Aimed(row.speaker, what, "not told", aim, None, found.reason)
    passes = found.value >= 1
    change = (
        "" if passes else f"turn the gain of {row.amplifier} down: its first step bends already"
    )
    return Aimed(row.speaker, what, f"up to step {found.value:.0f}", aim, passes, change)
