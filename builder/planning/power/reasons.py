"""The sentences of a supply: why this fuse, this conductor, this reserve."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.words import Listening
from builder.planning.plan import Reason
from builder.planning.power.conductors import ceiling_source, fuse_ceiling_a
from builder.planning.power.reserve import DC_DC, Reserve
from builder.planning.power.supply_runs import RunChoice
from builder.planning.tables import HOUSE_DEFAULT
from builder.units import Amperes

_LAWS = f"ASTM B258 or IEC 60228, copper of IEC 60028; limits: {HOUSE_DEFAULT}"


@dataclass(frozen=True, slots=True)
class FullCurrent:
    """What the amplifiers draw at full power, and what is played on them."""

    amplifiers_a: Amperes
    programme: Listening


def supply_reasons(
    runs: tuple[RunChoice, ...],
    reserves: tuple[Reserve, ...],
    full: FullCurrent,
    defaults: HouseDefaults,
) -> tuple[Reason, ...]:
    """Return the reasons of a supply, in the order of its numbers."""
    return (
        _current_reason(runs[0], full, defaults),
        *(reason for choice in runs for reason in run_reasons(choice, defaults)),
        *(reserve_reason(reserve) for reserve in reserves),
    )


def _current_reason(trunk: RunChoice, full: FullCurrent, defaults: HouseDefaults) -> Reason:
    heavy = full.programme == "heavy"
    divisor = defaults.music_divisor_heavy if heavy else defaults.music_divisor_light
    because = (
        f"full power at {defaults.charging_v:g} V; {full.programme} music averages 1/{divisor:g} "
        f"of it, {full.amplifiers_a / divisor:.1f} A"
    )
    beside = trunk.run.current_a - full.amplifiers_a
    if beside > 1e-9:
        because += f"; {shown(beside, 2)} A more of what hangs beside it count on the way"
    return Reason(f"plan for {full.amplifiers_a:.1f} A", because, HOUSE_DEFAULT)


def run_reasons(choice: RunChoice, defaults: HouseDefaults) -> tuple[Reason, ...]:
    """Return why a run has its fuse and its conductor."""
    run = choice.run
    fuse = "no standard fuse" if run.fuse_a is None else f"a {shown(run.fuse_a)} A fuse"
    rivals = () if run.fuse_a is None else run.fuse_a
    because = (
        f"the smallest standard size from the {shown(run.current_a, 1, beside=rivals)} A that "
        "flow and the "
        f"{shown(round(choice.demand.on_board_a, 1))} A fused behind it; before "
        f"{run.conductor} at most "
        f"{shown(fuse_ceiling_a(choice.conductor, defaults), beside=rivals)} A"
    )
    return (
        Reason(f"{run.name}: {fuse}", because, ceiling_source(choice.conductor)),
        Reason(f"{run.name}: {run.conductor}", _conductor_words(choice, defaults), _LAWS),
    )


def _conductor_words(choice: RunChoice, defaults: HouseDefaults) -> str:
    run, allowed = choice.run, defaults.supply_path_drop_v
    joints = f", with {shown(1000 * defaults.joint_ohm)} mΩ for all joints of the path,"
    said = (
        f"{shown(run.length_m)} m out and back at {shown(defaults.hot_conductor_c)} °C"
        f"{joints if choice.demand.joints else ''} lose "
        f"{shown(run.drop_v, 3)} V, {shown(run.cumulative_drop_v, 3, beside=allowed)} V from the "
        f"battery, {shown(allowed, 2)} V allowed"
    )
    if choice.tried:
        said += f"; the next thinner fails: {choice.tried[-1].says}"
    if choice.thicker is not None:
        said += (
            f"; {choice.thicker.conductor} would bring it to "
            f"{choice.thicker.cumulative_drop_v:.3f} V"
        )
    return said


def reserve_reason(reserve: Reserve) -> Reason:
    """Return what a reserve means, with the ampere that are spare or short."""
    words = "enough" if reserve.spare_a >= 0 else "not enough"
    spare = shown(abs(reserve.spare_a), 1, beside=0)
    rest = f"{spare} A {'spare' if reserve.spare_a >= 0 else 'short'}"
    left = shown(reserve.reserve_a, 1, beside=reserve.need.all_a)
    because = f"{left} A left, {reserve.need.words(reserve.reserve_a)}: {rest}"
    return Reason(f"{words} {_from_where(reserve)}", because, HOUSE_DEFAULT)


def _from_where(reserve: Reserve) -> str:
    return f"from the {DC_DC}" if reserve.at == DC_DC else f"at {reserve.at}"
