"""What a heading means: a column of the table, or a reading in a state of the car."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Final, Literal, NamedTuple, TypeVar

from builder.editing.tabular.columns import COLUMNS, Column
from builder.editing.tabular.words import plain
from builder.model.said.states import (
    AGAINST_WORDS,
    ALIKE_STATES,
    HEADING_AGAINST,
    LOAD_WORDS,
    STATE_WORDS,
)
from builder.model.said.units import BESIDE_WORDS, QUANTITY_WORDS
from builder.model.words import Beside, Load, Quantity, Reference, State
from builder.speller import surely

_Word = TypeVar("_Word", bound=str)
PARTNER = "other leg"
_AGAINST: dict[str, str] = {
    **{
        way: PARTNER if meant == "pair" else meant
        for meant, ways in AGAINST_WORDS.items()
        for way in ways
    },
    **HEADING_AGAINST,
}
_LOADS = {load: ways for load, ways in LOAD_WORDS.items() if load != "none"}
_LOADS = {load: tuple(way for way in ways if not way.isdigit()) for load, ways in _LOADS.items()}
_PLACE = re.compile(r"(?:([a-z][a-z0-9]{0,3})[. ])?([1-9][0-9]{0,2}|[a-z][0-9]{0,2})\Z")


Shown = Beside | Literal["value"]
"""What a column holds of a reading."""

_BODY: Final[Reference] = "body"
_BESIDE: dict[Shown, str] = {
    "battery_v": "battery (V)",
    "minutes": "(min)",
    "tone_hz": "tone (Hz)",
    "volume_step": "volume step",
}
_UNITS: dict[Quantity, str] = {
    "dc_v": "(V)",
    "ac_v": "AC (V)",
    "ohm": "(Ω)",
    "hz": "(Hz)",
    "ma": "(mA)",
    "duty_percent": "(%)",
}


class Wide(NamedTuple):
    """A column of one reading in each row, or of what stands beside such a reading.

    `beside` says which of the two; a column of what stands beside has no quantity.
    """

    state: State
    load: Load | None
    quantity: Quantity | None
    against: str | None
    beside: Shown = "value"

    @property
    def heading(self) -> str:
        """The heading as the template writes it."""
        words = [STATE_WORDS[self.state][0]]
        if self.load:
            words.append(LOAD_WORDS[self.load][1] if self.load == "1a" else self.load)
        if self.beside != "value":
            return " ".join([*words, _BESIDE[self.beside]])
        words.append(_UNITS[self.quantity] if self.quantity else "")
        if self.against:
            words.append(f"to {'ground' if self.against == _BODY else self.against}")
        return " ".join(words)


def _dc(state: State, load: Load | None = None) -> Iterator[Wide]:
    yield Wide(state, load, "dc_v", None)
    yield Wide(state, load, None, None, "battery_v")


WIDE: tuple[Wide, ...] = (
    *_dc("asleep"),
    Wide("asleep", None, None, None, "minutes"),
    *_dc("door_open"),
    *_dc("accessory"),
    *_dc("run"),
    *_dc("run", "1a"),
    *_dc("crank"),
    *_dc("engine"),
    *_dc("lights_off"),
    *_dc("lights_on"),
    *_dc("lights_dimmed"),
    *_dc("retained"),
    *_dc("radio_off"),
    *_dc("radio_on_zero"),
    Wide("radio_on_tone", None, "ac_v", PARTNER),
    Wide("radio_on_tone", None, None, None, "battery_v"),
    Wide("radio_on_tone", None, None, None, "tone_hz"),
    Wide("radio_on_tone", None, None, None, "volume_step"),
    *_dc("tuner"),
    *_dc("other_source"),
    Wide("unplugged", None, "ohm", "body"),
    Wide("unplugged", None, "ohm", PARTNER),
)
"""The columns of readings in the template; a table may have any other that is written so."""


def column_of(heading: str) -> Column | Wide | None:
    """What a heading means, or None when it means nothing that is known."""
    text = plain(heading)
    found = _by_name().get(text)
    return found if found is not None else _wide(text)


def near_heading(heading: str) -> str | None:
    """The known heading that a misspelt one was surely meant for, or None."""
    headings = [*(c.heading for c in COLUMNS), *(wide.heading for wide in WIDE)]
    known = {plain(heading): heading for heading in headings}
    near = surely(plain(heading), known) if len(plain(heading)) > 3 else None
    return known[near] if near else None


def asked_back(heading: str) -> tuple[State, ...]:
    """The states between which the words of a heading of a reading leave open, () for none."""
    text = plain(heading)
    for way, states in ALIKE_STATES.items():
        rest = text.removeprefix(f"{way} ")
        if rest != text and (_whole(rest, QUANTITY_WORDS) or _whole(rest, BESIDE_WORDS)):
            return states
    return ()


@cache
def _by_name() -> Mapping[str, Column]:
    names: dict[str, Column] = {}
    for column in COLUMNS:
        for name in column.names:
            names.setdefault(plain(name), column)
    return names


def _wide(text: str) -> Wide | None:
    """`[STATE] [LOAD] QUANTITY [to POINT]`, or `STATE [LOAD] battery V` and its like."""
    body, _, point = text.partition(" to ")
    state, rest = _front(body, STATE_WORDS)
    load, rest = _front(rest, _LOADS)
    beside = _whole(rest, BESIDE_WORDS)
    if beside and state and not point:
        return Wide(state, load, None, None, beside)
    quantity = _whole(rest, QUANTITY_WORDS)
    against = _point(point) if point else None
    if quantity is None or (point and against is None):
        return None
    if state is None:
        state = "unplugged" if quantity == "ohm" and point else None
    return Wide(state, load, quantity, against) if state else None


def _point(text: str) -> str | None:
    found = _AGAINST.get(text)
    place = _PLACE.match(text) if found is None else None
    if place is None:
        return found
    plug, cavity = place[1], place[2].upper()
    return f"{plug.upper()}.{cavity}" if plug else cavity


def _front(text: str, words: Mapping[_Word, tuple[str, ...]]) -> tuple[_Word | None, str]:
    """The meaning of the longest known words that a text starts with, and the rest of it."""
    said = [
        (plain(way), meaning) for meaning, ways in words.items() for way in (*ways, str(meaning))
    ]
    for way, meaning in sorted(said, key=lambda pair: -len(pair[0])):
        if text == way or text.startswith(f"{way} "):
            return meaning, text[len(way) :].strip()
    return None, text


def _whole(text: str, words: Mapping[_Word, tuple[str, ...]]) -> _Word | None:
    return next((meaning for meaning, ways in words.items() if text in map(plain, ways)), None)
