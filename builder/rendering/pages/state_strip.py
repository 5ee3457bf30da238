"""What a pin reads against ground, state by state, as a strip of small fields."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from builder.figures import at_least, at_most
from builder.model.names import STATE_NAMES
from builder.model.words import State
from builder.proof.band import Band, Bound
from builder.proof.signatures.shapes import Expected, Kind
from builder.rendering.pages.expected import band_phrase

OF_THE_KEY: tuple[State, ...] = ("asleep", "retained", "accessory", "run", "engine")
OF_THE_RADIO: tuple[State, ...] = ("asleep", "lights_on", "radio_off", "radio_on_zero", "tuner")
"""The states that a strip can hold, in the order in which a hand goes through them: those of the
key, or for a pin that follows something else those of the radio and the lights."""
FEWEST_OF_THE_KEY = 3
LIVE_FROM_V = 1.9
"""A field is drawn live when its least reading is above what a pin shows that carries nothing; a
dimmed lighting feed and a bus at rest stay below. Chosen by this project."""


class StripField(NamedTuple):
    """One field: the state it stands for, the volts in words, whether voltage is there."""

    state: str
    reads: str
    live: bool


@lru_cache(maxsize=256)
def state_strip(kinds: tuple[Kind, ...]) -> tuple[StripField, ...]:
    """Return a field for each state of which all kinds say the same.

    Many pins of a book share it, so it is made once and kept.
    """
    bands = [_bands(kind.rows) for kind in kinds]
    key = _fields(bands, OF_THE_KEY)
    return key if len(key) >= FEWEST_OF_THE_KEY else _fields(bands, OF_THE_RADIO)


def _fields(bands: Sequence[dict[State, Band]], states: Iterable[State]) -> tuple[StripField, ...]:
    found = []
    for state in states:
        said = {one.get(state) for one in bands}
        band = said.pop() if len(said) == 1 else None
        if band is not None:
            found.append(StripField(STATE_NAMES[state], _reads(band), _live(band)))
    return tuple(found)


def _bands(rows: Iterable[Expected]) -> dict[State, Band]:
    """The band of each state against ground, without a load."""
    found: dict[State, Band] = {}
    for row in rows:
        if (
            row.quantity == "dc_v"
            and row.against == "ground"
            and (not row.loads or "none" in row.loads)
        ):
            for state in row.states:
                found.setdefault(state, row.band)
    return found


def _live(band: Band) -> bool:
    low = band.low
    return low is not None and (low[0] > 0 or low[1] >= LIVE_FROM_V)


def _reads(band: Band) -> str:
    """A band in few words: "battery −0.5 to +0.3 V"."""
    low, high = band
    if low and high and low[0] == high[0] == 1:
        return f"battery {_signed(low, at_least)} to {_signed(high, at_most)} V"
    return band_phrase(band, "V").replace(" either way", "")


def _signed(bound: Bound, printed: Callable[[float, str], str]) -> str:
    figure = printed(bound[1], "V").replace("-", "−")
    return figure if bound[1] < 0 else f"+{figure}"
