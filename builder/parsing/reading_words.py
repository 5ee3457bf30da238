"""The word table as a line of a reading asks for it: one word for each, and what can be read."""

from __future__ import annotations

import re
from typing import Literal

from builder.model.said.states import AGAINST_WORDS, LOAD_WORDS, STATE_WORDS
from builder.model.said.units import OPEN_WORDS
from builder.model.words import Load, Quantity, Reference, State

EXAMPLE = "asleep VALUE V battery VOLTS minutes MINUTES"
"""How a line is written; words stand for the figures, so that none can be copied."""

DEAD_STATES: tuple[State, ...] = ("unplugged", "battery_off")
"""States in which a resistance may be read."""

STATE_SPELLINGS: dict[str, State] = {
    way.replace(" ", "_"): state for state, ways in STATE_WORDS.items() for way in ways
}
LOAD_SPELLINGS: dict[str, Load] = {
    way.replace(" ", ""): load for load, ways in LOAD_WORDS.items() for way in ways
}
AGAINST_SPELLINGS: dict[str, Reference | Literal["pair"]] = {
    way.replace(" ", "_"): meant for meant, ways in AGAINST_WORDS.items() for way in ways
}
"""`pair` is the other wire of the pair, whichever cavity it is in."""

OPEN = tuple(sorted(word for word in OPEN_WORDS if " " not in word))
"""What a meter shows when nothing is joined, as one word."""

CAVITY = re.compile(r"(?:[a-z][a-z0-9]{0,3}\.)?(?:[1-9][0-9]{0,2}|[a-z][0-9]{0,2})")

LIMITS: dict[Quantity, tuple[float, float, str]] = {
    "dc_v": (-20, 60, "V"),
    "ac_v": (0, 60, "V"),
    "ohm": (0, 1e9, "Ω"),
    "hz": (0, 1e6, "Hz"),
    "ma": (-500_000, 500_000, "mA"),
    "duty_percent": (0, 100, "%"),
}
"""Least and most that a reading of each quantity can be; those of the record format."""
