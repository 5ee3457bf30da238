"""A band, and where a figure lies in it: the one judgement of everything that is measured.

Cards, plans, bay sheets, results, grades and pages ask `where_in`; a phone asks its twin in
`theme/judge.js`, over bands that are written from here, and a test asks both the same.
"""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

Bound = tuple[float, float]
"""A limit as (share, offset): share × battery volts + offset, in the unit of the quantity."""

Where = Literal["in", "low", "high", "none", "unjudged"]
"""Where a figure lies: "none" is a line without a band, "unjudged" one that moves with a battery
that nobody read."""

TINY = 1e-9
"""Float noise that must not push a figure off its limit."""


class Band(NamedTuple):
    """What passes, limits included; None is no limit. An open circuit is above every limit."""

    low: Bound | None
    high: Bound | None

    @property
    def moves(self) -> bool:
        """Whether a limit moves with the battery, so that its volts belong beside the figure."""
        return any(bound is not None and bound[0] != 0 for bound in self)


def where_in(band: Band, value: float | None, battery_v: float | None) -> Where:
    """Say where a figure lies in its band. Nothing is rounded.

    Args:
        band: The limits.
        value: The figure in the unit of the band; None is an open circuit.
        battery_v: Battery volts read beside the figure [V]; None when nobody read them.
    """
    if band.low is None and band.high is None:
        return "none"
    if band.moves and battery_v is None:
        return "unjudged"
    number, at_v = math.inf if value is None else value, battery_v or 0.0
    if band.low is not None and number < limit_at(band.low, at_v) - TINY:
        return "low"
    above = band.high is not None and number > limit_at(band.high, at_v) + TINY
    return "high" if above else "in"


def limit_at(bound: Bound, battery_v: float) -> float:
    """A limit as a figure at these battery volts, in the unit of the quantity."""
    return bound[0] * battery_v + bound[1]


class Limits(NamedTuple):
    """A band as four plain numbers, for what is printed and handed on.

    A limit stands either in `low` and `high`, in the unit of the quantity, or in the two others
    as what is added to the battery's volts [V]; never in both. None is no such limit.
    """

    low: float | None
    high: float | None
    low_from_battery_v: float | None
    high_from_battery_v: float | None

    @classmethod
    def of(cls, band: Band) -> Limits:
        """Return a band as four numbers.

        Raises:
            ValueError: a limit moves with a share of the battery that is not the whole.
        """
        (low, low_from), (high, high_from) = _parted(band.low), _parted(band.high)
        return cls(low, high, low_from, high_from)

    @property
    def band(self) -> Band:
        """The same as a band."""
        return Band(
            _joined(self.low, self.low_from_battery_v), _joined(self.high, self.high_from_battery_v)
        )


def _parted(bound: Bound | None) -> tuple[float | None, float | None]:
    if bound is None:
        return None, None
    share, offset = bound
    if share not in (0, 1):
        raise ValueError(f"a limit moves with the whole battery or not at all, not with {share:g}")
    return (None, offset) if share else (offset, None)


def _joined(fixed: float | None, from_battery_v: float | None) -> Bound | None:
    if from_battery_v is not None:
        return (1.0, from_battery_v)
    return None if fixed is None else (0.0, fixed)
