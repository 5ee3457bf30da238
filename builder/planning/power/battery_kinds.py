"""Batteries: what each kind holds at rest, how much of it may be used, what age leaves of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.model.house_defaults import HouseDefaults
from builder.model.job.batteries import BatteryType
from builder.units import Volts, require_not_negative, require_positive

RestPoint = tuple[Volts, float]
"""Volts at rest, and the share of its capacity that it holds then."""

LEAD_REST: Sequence[RestPoint] = (
    (11.89, 0.0), (12.06, 0.25), (12.24, 0.5), (12.45, 0.75), (12.65, 1.0),
)  # fmt: skip
"""Battery Council International, wet lead and acid at 27 °C (memory)."""
AGM_REST: Sequence[RestPoint] = (
    (11.75, 0.0), (12.05, 0.25), (12.3, 0.5), (12.6, 0.75), (12.85, 1.0),
)  # fmt: skip
"""Makers' sheets of batteries with glass mats differ by 0.1 V (memory)."""
LITHIUM_REST: Sequence[RestPoint] = (
    (12.0, 0.09), (12.8, 0.17), (13.0, 0.3), (13.1, 0.4), (13.2, 0.7), (13.3, 0.9), (13.4, 0.99),
)  # fmt: skip
"""Four cells of iron phosphate; flat, so that volts tell little. Makers' sheets (memory)."""

LEAST_LEFT = 0.5
"""However old it is, less than this share of its label means a new battery. Common practice."""


LITHIUM_TAKES = 2.5
"""How many times as much a lithium battery takes in charging: 0.5 A for each ampere-hour. Makers'
sheets (memory)."""


@dataclass(frozen=True, slots=True)
class BatteryKind:
    """What changes with the kind of a battery. `accepted_v` is the least at rest to begin with."""

    name: str
    rest: Sequence[RestPoint]
    accepted_v: Volts
    usable_share: float
    charge_a_per_ah: float  # taken at most while it is charged through a relay

    @property
    def accepted_share(self) -> float:
        """What share of its capacity it is sure to hold when its rest volts are accepted."""
        return held_share(self.accepted_v, self.rest)


def battery_kind(type: BatteryType, defaults: HouseDefaults) -> BatteryKind:
    """Return what holds of a kind; an unknown one counts as lead and acid.

    The volts accepted are common practice, no source.
    """
    charge = defaults.charge_a_per_ah
    if type == "agm":
        return BatteryKind("AGM", AGM_REST, 12.4, defaults.agm_listening_share, charge)
    if type == "lithium":
        return BatteryKind(
            "lithium", LITHIUM_REST, 13.2, defaults.lithium_listening_share, LITHIUM_TAKES * charge
        )
    return BatteryKind("lead and acid", LEAD_REST, 12.2, defaults.listening_share, charge)


def held_share(rest_v: Volts, points: Sequence[RestPoint]) -> float:
    """Return what share of its capacity a battery holds at rest volts, even between two points.

    >>> round(held_share(12.345, LEAD_REST), 3)
    0.625
    """
    for (low_v, low), (high_v, high) in pairwise(points):
        if low_v <= rest_v <= high_v:
            return low + (high - low) * (rest_v - low_v) / (high_v - low_v)
    return points[0][1] if rest_v < points[0][0] else points[-1][1]


def aged_ah(label_ah: float, age_years: float | None, defaults: HouseDefaults) -> float:
    """Return what is left of a label by age; a battery of unknown age counts as new. [Ah]

    Raises:
        ValueError: the label is not positive, or the age is negative.

    >>> aged_ah(70.0, 4.0, HouseDefaults())
    56.0
    """
    years = require_not_negative("age_years", age_years or 0.0)
    left = max(LEAST_LEFT, 1 - defaults.battery_loss_a_year * years)
    return left * require_positive("label_ah", label_ah)
