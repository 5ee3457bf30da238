"""A result of the bay sheet against its line: the same judgement as that of a pin's readings."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.job import Result
from builder.planning.work_pack import BayTest
from builder.proof.band import Where, where_in


class JudgedResult(NamedTuple):
    """Where a result lies, and the battery volts or the amperes that it was judged at.

    `battery_v` is None where the band does not move. `taken` says that nobody read the battery
    beside the figure, so that the house default for a battery at rest stood in. `current_a` is None
    where the band does not go by it, or nobody read it.
    """

    where: Where
    battery_v: float | None
    taken: bool
    current_a: float | None = None

    @property
    def outside(self) -> bool:
        """Whether the figure does not pass."""
        return self.where in ("low", "high")


def judge_result(result: Result, test: BayTest, defaults: HouseDefaults) -> JudgedResult:
    """Judge the figure of a result; one without a figure is "none".

    Results written before the battery stood beside them were judged at a battery at rest, and
    still are; volts without the amperes that a line asks for are judged as volts.
    """
    if result.value is None:
        return JudgedResult("none", None, False)
    by_current = test.band_by_current
    if by_current is not None and result.current_a is not None:
        where = where_in(by_current, result.value, result.current_a)
        return JudgedResult(where, None, False, result.current_a)
    if not test.band.moves:
        return JudgedResult(where_in(test.band, result.value, None), None, False)
    taken = result.battery_v is None
    battery_v = defaults.resting_battery_v if result.battery_v is None else result.battery_v
    return JudgedResult(where_in(test.band, result.value, battery_v), battery_v, taken)
