"""How long to cut, what to order, and how many small parts a job takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.tables import LENGTH_STEP_M, STOCK_LINE_LEADS_M
from builder.planning.preferred import next_size
from builder.units import require_not_negative, require_positive

_HAIR = 1e-6  # 7.0·1.1 + 0.6 is 8.3 in decimals and a hair over it in binary fractions


def round_up_m(length_m: float) -> float:
    """Return a length rounded up to the next 0.1 m, float noise left out of account. [m]

    Raises:
        ValueError: the length is negative or not finite.

    >>> round_up_m(4.53)
    4.6
    """
    steps = ceil(require_not_negative("length_m", length_m) / LENGTH_STEP_M - _HAIR)
    return round(steps * LENGTH_STEP_M, 1)


def cut_length_m(route_m: float, defaults: HouseDefaults) -> float:
    """Return what to cut for a route: bends, both ends, rounded up. [m]

    Raises:
        ValueError: the route is negative or not finite.

    >>> cut_length_m(4.0, HouseDefaults())
    5.0
    """
    ends = 2 * defaults.cut_end_m
    return round_up_m(
        require_not_negative("route_m", route_m) * (1 + defaults.cut_slack_share) + ends
    )


def line_lead_m(distance_m: float, defaults: HouseDefaults) -> float | None:
    """Return the stock line lead for a distance, or None when none is long enough. [m]

    Raises:
        ValueError: the distance is not positive and finite.

    >>> line_lead_m(1.8, HouseDefaults())
    3.0
    """
    least = require_positive("distance_m", distance_m) + defaults.line_lead_slack_m
    return next_size(least - _HAIR, STOCK_LINE_LEADS_M)


@dataclass(frozen=True, slots=True)
class Cut:
    """One cable of a job: conductors, cut length, how many of its ends are joined by splices."""

    name: str
    length_m: float
    conductors: int  # those in use
    spliced_ends: int  # 0, 1 or 2


@dataclass(frozen=True, slots=True)
class PickList:
    """What lies on the bench before the work begins; `_to_pick` counts hold the spare."""

    cable_m: float
    joints: int
    sleeves_to_pick: int
    ties_to_pick: int


def joint_count(cuts: Iterable[Cut]) -> int:
    """Return the sum of conductors times spliced ends.

    Raises:
        ValueError: a cable with more ends than two, or a negative count.
    """
    return sum(_joints(cut) for cut in cuts)


def _joints(cut: Cut) -> int:
    if not 0 <= cut.spliced_ends <= 2 or cut.conductors < 0:
        raise ValueError(f"{cut.name}: {cut.conductors} conductors, {cut.spliced_ends} ends")
    return cut.conductors * cut.spliced_ends


def with_spare(count: int, defaults: HouseDefaults) -> int:
    """Return a count with the house's spare, rounded up: 16 becomes 18.

    >>> with_spare(17, HouseDefaults())
    19
    """
    return ceil(count * (1 + defaults.spare_share) - _HAIR)


def pick_list(cuts: Iterable[Cut], defaults: HouseDefaults) -> PickList:
    """Return the small parts of a job: a sleeve a joint, ties by length.

    Raises:
        ValueError: a cut is impossible.
    """
    listed = tuple(cuts)
    metres = sum(cut.length_m for cut in listed)
    joints = joint_count(listed)
    ties = ceil(metres / require_positive("tie_spacing_m", defaults.tie_spacing_m) - _HAIR)
    return PickList(
        round(metres, 1),
        joints,
        with_spare(joints, defaults),
        with_spare(ties, defaults),
    )


def reel_short_m(needed_m: float, on_reel_m: float | None) -> float | None:
    """Return how much a reel lacks: 0 when it is enough, None when nobody measured it. [m]

    An empty reel lacks all of it.

    Raises:
        ValueError: what is needed is not positive, or what is there negative.

    >>> reel_short_m(6.0, 4.0)
    2.0
    """
    if on_reel_m is None:
        return None
    return max(0.0, require_positive("m", needed_m) - require_not_negative("m", on_reel_m))
