"""Sentences about expected and measured figures, with units and limits."""

from __future__ import annotations

from typing import Protocol

from builder.figures import rounded_down
from builder.model.names import LOAD_NAMES, QUANTITY_NAMES, STATE_NAMES
from builder.model.words import Load, Quantity, State
from builder.proof.band import Bound, limit_at
from builder.proof.signatures.shapes import Expected
from builder.proof.signatures.table import AGAINST_WORDS


class Measured(Protocol):
    """A figure off a meter, as the judge needs it. `value` None is an open circuit."""

    @property
    def state(self) -> State:
        """The state of the car."""

    @property
    def quantity(self) -> Quantity:
        """What was measured."""

    @property
    def value(self) -> float | None:
        """The figure in the unit of the quantity, or None for open."""

    @property
    def against(self) -> str:
        """The reference point."""

    @property
    def battery_v(self) -> float | None:
        """Battery volts at that moment."""

    @property
    def load(self) -> Load:
        """The load on the pin."""

    @property
    def minutes(self) -> float | None:
        """Minutes in the state."""


def figure(value: float | None, quantity: Quantity) -> str:
    """A value with its unit, for example "12.61 V"; None is "open"."""
    if value is None:
        return "open"
    plain = value + 0.0  # minus zero is zero
    return f"{plain:.{_digits(value, quantity)}f} {QUANTITY_NAMES[quantity][1]}"


def _digits(value: float, quantity: Quantity) -> int:
    return 2 if quantity in ("dc_v", "ac_v", "ohm") and abs(value) < 100 else 0


def limits(
    low: Bound | None, high: Bound | None, battery_v: float | None, quantity: Quantity = "dc_v"
) -> str:
    """A band in words: at these battery volts "12.30 V to 12.90 V", without them
    "battery − 0.3 V to battery + 0.3 V". What is printed passes: each end is rounded inward."""
    ends = [_end(bound, battery_v, quantity, inward) for bound, inward in ((low, -1), (high, 1))]
    if low is None:
        return f"at most {ends[1]}"
    if high is None:
        return f"at least {ends[0]}"
    if _is_off(low, high):
        return f"at most {ends[1]} either way"
    return f"{ends[0]} to {ends[1]}"


def _is_off(low: Bound, high: Bound) -> bool:
    return low[0] == high[0] == 0 and low[1] == -high[1]


def _end(bound: Bound | None, battery_v: float | None, quantity: Quantity, inward: int) -> str:
    if bound is None:
        return ""
    if bound[0] and battery_v is None:
        return from_battery(bound[1])
    limit = limit_at(bound, battery_v or 0.0)
    return figure(inward * rounded_down(inward * limit, _digits(limit, quantity)), quantity)


def from_battery(offset_v: float) -> str:
    """A limit that moves with the battery, for example "battery − 0.5 V"."""
    if not offset_v:
        return "battery volts"
    return f"battery {'+' if offset_v > 0 else '−'} {abs(offset_v):g} V"


def how(row: Expected) -> str:
    """How a line is measured: quantity, reference and load."""
    loads = " or ".join(LOAD_NAMES[load] for load in row.loads) or "any load"
    live = "" if row.quantity == "ohm" else f", {loads}"
    return f"{QUANTITY_NAMES[row.quantity][0]} against {AGAINST_WORDS[row.against]}{live}"


def expectation_sentence(state: State, row: Expected, battery_v: float | None) -> str:
    """Say what a line expects in one state."""
    where = STATE_NAMES[state]
    if state == "asleep" and row.proves_from_min:
        where += f" for at least {row.proves_from_min:g} min"
    note = f" ({row.note})" if row.note else ""
    return f"{where}: {how(row)}: {limits(row.low, row.high, battery_v, row.quantity)}{note}"


def reading_words(reading: Measured) -> str:
    """A reading in words: state, minutes, load and figure."""
    minutes = (
        f" {reading.minutes:g} min"
        if reading.minutes is not None and reading.state == "asleep"
        else ""
    )
    load = "" if reading.load == "none" else f", {LOAD_NAMES[reading.load]}"
    value = figure(reading.value, reading.quantity)
    return f"{STATE_NAMES[reading.state]}{minutes}{load}: {value}"
