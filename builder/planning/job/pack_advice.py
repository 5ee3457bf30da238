"""What else could be done: another turn-on, another supply."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.job.supply_sheet import JobPower
from builder.planning.plan import Plan, Reason
from builder.planning.tables import COMMON_PRACTICE, HOUSE_DEFAULT
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.turn_on.staying_awake import latch_of
from builder.planning.work_pack import JobParts

_COULD_ALSO = "turn-on could also be"


def without_turn_on(alternatives: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """Return what may be said under a refusal: another turn-on was not tried as a whole plan."""
    return tuple(each for each in alternatives if not each.decision.startswith(_COULD_ALSO))


def latch_alternative(parts: JobParts, plan: Plan, defaults: HouseDefaults) -> tuple[Reason, ...]:
    """Return what waking by itself would cost where a wire was chosen and it could."""
    if plan.turn_on.kind in WAKES_BY_ITSELF:
        return ()
    could = [rung for rung in plan.ladder if rung.verdict == "possible"]
    waking = next((rung for rung in could if rung.kind == "offset_wake"), None)
    if waking is None:
        return ()
    lost = latch_of(parts, defaults)
    because = "how long it would stay awake after each lock is not recorded"
    if lost is not None:
        allowed = "allowed" if lost <= defaults.latch_ah_per_day else "too much"
        because = (
            f"{shown(parts.job.supply.wake_hold_min)} min after each lock cost "
            f"{shown(lost, 2, beside=defaults.latch_ah_per_day)} Ah a day, "
            f"{shown(defaults.latch_ah_per_day)} Ah are the limit: {allowed}"
        )
    decision = f"{_COULD_ALSO} the bias of {waking.where}, rung {waking.rung}"
    return (Reason(decision, because, HOUSE_DEFAULT),)


def reserve_alternatives(power: JobPower) -> tuple[Reason, ...]:
    """Return what helps a car that cannot spare the current."""
    short = next((flag for flag in power.flags if flag.kind == "reserve_short"), None)
    if short is None or short.value is None or short.limit is None:
        return ()
    missing = short.limit - short.value
    because = (
        f"{missing:.1f} A are short at {short.where}: a larger alternator, less power, lighter "
        "programme, or not loud at idle. A capacitor or second battery adds no average current"
    )
    return (Reason("the car cannot feed this at all times", because, COMMON_PRACTICE),)
