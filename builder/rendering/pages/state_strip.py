"""What a pin reads against ground, state by state, as a strip of small fields."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from builder.figures import at_least, at_most
from builder.model.names import STATE_NAMES
from builder.model.words import State
from builder.proof.band import Band, Bound
from builder.proof.signatures.shapes import Expected, Kind
from builder.rendering.pages.expected import band_phrase

STATES: tuple[State, ...] = (
    "asleep", "retained", "accessory", "run", "engine", "lights_on", "radio_off", "radio_on_zero",
)  # fmt: skip
"""The states that a strip can hold, in the order in which a car goes through them."""
MOST_FIELDS = 5
LIVE_FROM_V = 1.9
"""A field is drawn live when its least reading is above what a pin shows that carries nothing; a
dimmed lighting feed and a bus at rest stay below. Chosen by this project."""


class StripField(NamedTuple):
    """One field: the states it stands for, the volts in words, whether voltage is there."""

    states: str
    reads: str
    live: bool


def state_strip(kinds: Sequence[Kind]) -> tuple[StripField, ...]:
    """Return the fields that all kinds agree on, states that read alike in one field."""
    bands = [_bands(kind.rows) for kind in kinds]
    shared = [s for s in STATES if bands and all(one.get(s) == bands[0].get(s) for one in bands)]
    fields: list[tuple[list[str], Band]] = []
    for state in shared:
        band = bands[0].get(state)
        if band is None:
            continue
        if fields and fields[-1][1] == band:
            fields[-1][0].append(STATE_NAMES[state])
        else:
            fields.append(([STATE_NAMES[state]], band))
    found = (StripField(", ".join(names), _reads(band), _live(band)) for names, band in fields)
    return tuple(found)[:MOST_FIELDS]


def _bands(rows: Iterable[Expected]) -> dict[State, Band]:
    """The band of each state against ground, without a load."""
    found: dict[State, Band] = {}
    for row in rows:
        if row.quantity == "dc_v" and row.against == "ground" and "none" in row.loads:
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
