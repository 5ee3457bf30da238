"""The sheet of a job's supply, filled in with what was worked out."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.job.lasting import Lasting, days_parked, listening_h
from builder.planning.job.stored_charge import feeding_charge, stored_charge
from builder.planning.job.supply_flags import restart_supply_v
from builder.planning.pack_details import PowerSheet, SupplyRun
from builder.planning.plan import Reason
from builder.planning.power.fuse_sizes import shape_for
from builder.planning.power.loop import Loop
from builder.planning.power.main_fuse import main_fuse_words
from builder.planning.power.supply import Power
from builder.planning.power.supply_runs import Run, RunChoice
from builder.planning.work_pack import JobParts
from builder.units import Amperes


@dataclass(frozen=True, slots=True)
class Worked:
    """What was worked out of a supply; `link` is the lead to a second battery."""

    power: Power
    because: tuple[Reason, ...]
    lasting: Lasting
    charging_a: Amperes
    loop: Loop | None
    link: RunChoice | None


def power_sheet(parts: JobParts, worked: Worked, defaults: HouseDefaults) -> PowerSheet:
    """Return the sheet of a supply."""
    power, lasting, loop, link = worked.power, worked.lasting, worked.loop, worked.link
    feeding, standing = feeding_charge(parts, defaults), stored_charge(parts, defaults)
    supply, worst = parts.job.supply, min(power.reserves, key=lambda r: r.spare_a, default=None)
    return PowerSheet(
        full_current_a=power.full_current_a,
        music_current_a=power.music_current_a,
        main_fuse_a=power.main_fuse_a,
        fuse_family=shape_for(power.main_fuse_a or 0.0, supply.fuse_family),
        fuse_to_battery_m=supply.fuse_to_battery_m,
        reserve_a=worst.reserve_a if worst else None,
        listening_h=listening_h(parts, lasting, defaults),
        parked_days=days_parked(parts, lasting, defaults),
        latch_ah_per_day=lasting.latch_ah_per_day,
        lasts_from="" if feeding is None else feeding.words,
        days_from="" if standing is None else standing.words,
        parked_draw_ma=lasting.parked_ma,
        main_fuse_at=main_fuse_words(supply, defaults),
        charging_a=worked.charging_a or None,
        runs=tuple(map(_run, power.runs, power.thicker)),
        link_run=None if link is None else _run(link.run, link.thicker),
        because=worked.because,
        reserve_spare_a=worst.spare_a if worst else None,
        strap_mohm=None if loop is None or loop.strap_ohm is None else 1000 * loop.strap_ohm,
        strap_max_mohm=None if loop is None else 1000 * loop.strap_max_ohm,
        loop_drop_v=None if loop is None else loop.drop_v,
        supply_dip_v=restart_supply_v(parts.vehicle),
    )


def _run(run: Run, thicker: Run | None) -> SupplyRun:
    return SupplyRun(
        run.name, run.current_a, run.fuse_a, run.conductor, round(run.length_m, 3), run.drop_v,
        run.cumulative_drop_v, thicker.conductor if thicker else None,
        thicker.cumulative_drop_v if thicker else None, run.return_drop_v,
    )  # fmt: skip
