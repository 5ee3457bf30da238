"""What it costs that a converter stays awake after each lock."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.pack_details import PackFlag
from builder.planning.plan import Reason, TurnOn
from builder.planning.power.idle_current import idle_a
from builder.planning.tables import COMMON_PRACTICE, HOUSE_DEFAULT
from builder.planning.turn_on.hold_up import latch_charge
from builder.planning.turn_on.loads import WAKES_BY_ITSELF, place_of
from builder.planning.work_pack import JobParts


def latch_of(parts: JobParts, defaults: HouseDefaults) -> float | None:
    """Return what a converter that stays awake after each lock costs a day, or None. [Ah]"""
    supply = parts.job.supply
    figures = (idle_a(parts), supply.wake_hold_min, supply.locks_per_day)
    if any(figure is None or figure <= 0 for figure in figures):
        return None
    idle, hold, locks = (figure or 0.0 for figure in figures)
    return latch_charge(idle, hold, locks, defaults).ah_per_day


def latch_loss(
    parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults
) -> tuple[float | None, list[Reason], list[PackFlag]]:
    """Return what it loses a day [Ah], None where it does not or nobody knows, and what to say."""
    if turn_on.kind not in WAKES_BY_ITSELF:
        return None, [], []
    lost, limit = latch_of(parts, defaults), defaults.latch_ah_per_day
    if lost is None:
        because = "how long it stays awake after each lock, or what it draws then, is not recorded"
        return None, [Reason("measure how long it stays awake", because, COMMON_PRACTICE)], []
    supply = parts.job.supply
    because = (
        f"{shown(idle_a(parts), 2)} A for {shown(supply.wake_hold_min)} min after each of "
        f"{shown(supply.locks_per_day)} locks is {shown(lost, 2, beside=limit)} Ah a day, "
        f"{shown(limit)} Ah allowed"
    )
    reasons = [Reason("the converter stays awake after each lock", because, HOUSE_DEFAULT)]
    if lost <= limit:
        return lost, reasons, []
    flag = PackFlag("latch_heavy", place_of(turn_on), because, lost, limit, "Ah")
    return lost, reasons, [flag]
