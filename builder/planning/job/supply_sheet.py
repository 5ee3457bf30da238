"""The supply of a job: currents, fuses, conductors, reserve, listening and parking."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSupply
from builder.model.vehicle import Vehicle
from builder.planning.job.lasting import Lasting, lasting_reasons
from builder.planning.job.power_sheet import Worked, power_sheet
from builder.planning.job.second_supply import added_charge_a, link_run
from builder.planning.job.supply_flags import job_ground_flags, sensor_flags
from builder.planning.levels.amplifier_loads import ChannelLoad, amplifier_current_a
from builder.planning.levels.hung_devices import hung_current_a
from builder.planning.pack_details import PackFlag, PowerSheet
from builder.planning.plan import TurnOn
from builder.planning.power.asleep_draws import parked_after_ma
from builder.planning.power.conductors import choice_awg
from builder.planning.power.flags import PowerFlag, fuse_far_flags
from builder.planning.power.fuse_sizes import FuseDistance, fuse_distance
from builder.planning.power.idle_current import interface_a
from builder.planning.power.loop import Loop, loop_flags, supply_loop
from builder.planning.power.loop_cures import with_cures
from builder.planning.power.reasons import FullCurrent, run_reasons
from builder.planning.power.reserve import (
    Need,
    Reserve,
    alternator_reserves,
    dc_dc_reserve,
)
from builder.planning.power.supply import (
    SupplyLoad,
    branch_demand,
    music_current_a,
    plan_power,
    size_runs,
    trunk_demand,
)
from builder.planning.power.supply_advice import (
    chosen_conductor,
    family_reasons,
    metric_reasons,
    place_reasons,
    terminal_reasons,
)
from builder.planning.power.supply_runs import RunChoice, choose_run, judge_run
from builder.planning.turn_on.restart_hold_up import short_supplies
from builder.planning.words import FeedPlace, PowerFlagKind
from builder.planning.work_pack import JobParts

_STOPS: frozenset[PowerFlagKind] = frozenset(
    {"fuse_above_ceiling", "fuse_below_full_current", "no_fuse_fits"}
)
"""Flags that refuse a plan: a fire, or a fuse that opens in use."""


@dataclass(frozen=True, slots=True)
class JobPower:
    """The sheet and what is wrong with it. `sheet` is None when a length is not measured."""

    sheet: PowerSheet | None
    flags: tuple[PackFlag, ...]
    runs: tuple[RunChoice, ...] = ()
    link: RunChoice | None = None  # to a second battery


def job_power(
    parts: JobParts,
    loads: Mapping[tuple[str, int], ChannelLoad],
    latch_ah_per_day: float | None,
    turn_on: TurnOn,
    fed_at: FeedPlace,
    defaults: HouseDefaults,
) -> JobPower:
    """Return the supply of everything added.

    `turn_on` says what of it hangs on the battery while the car sleeps, `fed_at` where the
    converter takes its own supply.
    """
    supply = parts.job.supply
    out, back = _trunk_lengths_m(parts)
    wanted = _supply_loads(parts, loads, fed_at, defaults)
    if out is None or back is None or not wanted:
        return JobPower(None, ())
    runs = _runs(supply, wanted, out, back, defaults)
    full = FullCurrent(sum(load.full_current_a for load in wanted), supply.listening)
    need = music_current_a(full.amplifiers_a, full.programme, defaults)
    charging = added_charge_a(parts, defaults)
    reserves = _reserves(parts.vehicle, need, charging, defaults)
    power = plan_power(runs, reserves, full, defaults)
    link = link_run(parts, need, defaults)
    loop = _loop(parts, runs, link, defaults)
    distance = _distance(supply, defaults)
    flags = (
        *power.flags,
        *(link.flags if link else ()),
        *(fuse_far_flags(distance) if distance else ()),
        *job_ground_flags(runs, supply, defaults),
        *short_supplies(parts),
        *(loop_flags(loop, defaults) if loop else ()),
    )
    lasting = Lasting(
        latch_ah_per_day, parked_after_ma(parts, turn_on, defaults), need,
        interface_a(parts, turn_on),
    )  # fmt: skip
    reasons = (
        *power.because,
        *family_reasons(supply, runs),
        *terminal_reasons(parts, runs),
        *metric_reasons(supply, wanted, out, back, runs, defaults),
        *place_reasons(parts, distance, fed_at, defaults),
        *lasting_reasons(parts, lasting, defaults),
        *(run_reasons(link, defaults) if link else ()),
    )
    sheet = power_sheet(parts, Worked(power, reasons, lasting, charging, loop, link), defaults)
    return JobPower(sheet, (*map(_pack_flag, flags), *sensor_flags(parts)), runs, link)


def _pack_flag(flag: PowerFlag) -> PackFlag:
    return PackFlag(
        flag.kind, flag.where, flag.says, flag.value, flag.limit, flag.unit, flag.kind in _STOPS
    )


def _trunk_lengths_m(parts: JobParts) -> tuple[float | None, float | None]:
    """The trunk, out and back. Branches return to the body by themselves; what hangs on a second
    battery comes home by that one's own ground as well."""
    supply, car = parts.job.supply, parts.vehicle.power
    out = supply.supply_lead_m if supply.supply_lead_m is not None else car.supply_lead_m
    home = 0.0
    if supply.second_battery is not None:
        out, home = supply.second_battery.feed_m, supply.second_battery.ground_m
    if supply.branches:
        return out, home
    back = supply.ground_lead_m if supply.ground_lead_m is not None else car.ground_lead_m
    return out, None if back is None else back + home


def _supply_loads(
    parts: JobParts,
    loads: Mapping[tuple[str, int], ChannelLoad],
    fed_at: FeedPlace,
    defaults: HouseDefaults,
) -> list[SupplyLoad]:
    """Each amplifier with a channel in use: full power of those channels, at their loads.

    The converter hangs on the first, or on the block before it.
    """
    branches = {branch.amplifier: branch for branch in parts.job.supply.branches}
    found: list[SupplyLoad] = []
    for name, amplifier in parts.amplifiers.items():
        current = amplifier_current_a(name, amplifier, loads, defaults)
        if current <= 0:
            continue
        branch = branches.get(name)
        lengths = (branch.out_m, branch.return_m) if branch else (0.0, 0.0)
        hung = 0.0 if found else hung_current_a(parts.converter)
        at_amplifier, at_block = (hung * (fed_at == place) for place in ("amplifier", "block"))
        on_board = amplifier.supply.fuse_a
        found.append(SupplyLoad(name, current, on_board, *lengths, at_amplifier, at_block))
    return found


def _runs(
    supply: JobSupply, loads: list[SupplyLoad], out: float, back: float, defaults: HouseDefaults
) -> tuple[RunChoice, ...]:
    """Trunk and branches; a trunk that the job has chosen is judged, its branches are chosen."""
    given, sizes = chosen_conductor(supply), choice_awg(supply.material)
    if given is None:
        return size_runs(loads, out, back, sizes, defaults)
    trunk = judge_run(trunk_demand(tuple(loads), out, back), given, defaults)
    before = trunk.run.cumulative_drop_v
    return (
        trunk,
        *(
            choose_run(branch_demand(load), sizes, defaults, before_v=before)
            for load in loads
            if load.has_branch
        ),
    )


def _reserves(
    vehicle: Vehicle, music_a: float, charging_a: float, defaults: HouseDefaults
) -> tuple[Reserve, ...]:
    power, need = vehicle.power, Need(music_a, charging_a)
    if not power.charging_a or not power.base_load_a:
        return ()
    if power.charging_by == "dcdc":
        return (dc_dc_reserve(power.charging_a, power.base_load_a, need),)
    if power.charging_by != "alternator":
        return ()
    idle = power.charging_idle_a
    share = None if not idle else idle / power.charging_a
    return alternator_reserves(power.charging_a, power.base_load_a, need, defaults, share)


def _loop(
    parts: JobParts, runs: tuple[RunChoice, ...], link: RunChoice | None, defaults: HouseDefaults
) -> Loop | None:
    """The loop through the body; None where the ground is the battery's own post.

    What a second battery feeds comes home to that one's own post at the ground point: through the
    car's straps flows what its link carries, and nothing else.
    """
    supply = parts.job.supply
    if supply.ground_point == "battery_post":
        return None
    through = runs if link is None else (link,)
    worst = max(run.run.cumulative_drop_v for run in through)
    strap = None if supply.strap is None else supply.strap.ohm
    loop = supply_loop(worst, through[0].run.current_a, strap, defaults)
    return with_cures(loop, through[0], choice_awg(supply.material), defaults)


def _distance(supply: JobSupply, defaults: HouseDefaults) -> FuseDistance | None:
    if supply.fuse_to_battery_m is None:
        return None
    return fuse_distance(supply.fuse_to_battery_m, defaults)
