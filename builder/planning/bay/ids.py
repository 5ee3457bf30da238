"""The id of a line of the bay sheet: it says what is measured, so that a result stays with it.

An id is made of that line alone, never of its place on the sheet. A pin or an amplifier that
comes or goes therefore moves no result to another line.
"""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from builder.model.words import GROUND_REFERENCES, Quantity, State
from builder.planning.plan import ProofReading
from builder.planning.work_pack import BayTest

_SHORT: dict[State, str] = {
    "accessory": "acc",
    "radio_on_zero": "radio-on",
    "radio_on_tone": "tone",
}
"""States whose name is long to say; every other is said as it is written.

Ohms are read with the plug off, which needs no saying.
"""

_LONGEST = 60
"""So many marks fit beside a line of the sheet, and into a result. The rest becomes a short sum."""

_QUANTITIES: dict[Quantity, str] = {"dc_v": "", "ac_v": "ac", "ohm": "ohms", "duty_percent": "duty"}
"""Volts are what a reading usually is, and are left out."""


def speakable(*words: str) -> str:
    """Return words as small letters, digits and single hyphens; what is empty is left out."""
    plain = unicodedata.normalize("NFKD", " ".join(words).lower().replace("ß", "ss"))
    bare = "".join(mark for mark in plain if not unicodedata.combining(mark))
    said = "-".join(re.findall(r"[a-z0-9]+", bare))
    if len(said) <= _LONGEST:
        return said
    return f"{said[: _LONGEST - 7].rstrip('-')}-{_sum_of(said)}"


def _sum_of(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:6]


def reading_id(reading: ProofReading) -> str:
    """Return the id of a proof reading: where, in which state, of what, under which load."""
    where = reading.fuse_position or f"{reading.plug} {reading.cavity}"
    quantity = _QUANTITIES.get(reading.quantity, reading.quantity)
    load = "" if reading.load == "none" else reading.load
    unplugged = reading.quantity == "ohm" and reading.state == "unplugged"
    state = "" if unplugged else _SHORT.get(reading.state, reading.state)
    return speakable(where, state, quantity, load, _against(reading))


def _against(reading: ProofReading) -> str:
    """The other probe, where it is not where everybody puts it for volts."""
    volts_to_ground = reading.quantity != "ohm" and reading.against in GROUND_REFERENCES
    return "" if volts_to_ground else f"to {reading.against}"


def numbered(lines: Iterable[BayTest]) -> tuple[BayTest, ...]:
    """Return the lines with their running number, for the eye only, and with unlike ids.

    Two lines that would be called alike are both told apart by what they say, neither by coming
    first: so a third that joins them changes which result belongs to which of neither.
    """
    found = tuple(lines)
    often = Counter(line.id for line in found)
    return tuple(
        replace(line, number=at, id=_told_apart(line) if often[line.id] > 1 else line.id)
        for at, line in enumerate(found, 1)
    )


def _told_apart(line: BayTest) -> str:
    return f"{line.id}-{_sum_of('|'.join((line.phase, line.what, line.state, line.quantity)))}"
