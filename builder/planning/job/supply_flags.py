"""What is wrong with a job's supply that no single run shows: grounds, dips, the sensor."""

from __future__ import annotations

from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSupply
from builder.model.vehicle import Vehicle
from builder.planning.pack_details import PackFlag
from builder.planning.power.flags import PowerFlag, ground_flags
from builder.planning.power.supply_runs import RunChoice
from builder.planning.turn_on.restart_hold_up import supply_dips
from builder.planning.work_pack import JobParts


def job_ground_flags(
    runs: tuple[RunChoice, ...], supply: JobSupply, defaults: HouseDefaults
) -> list[PowerFlag]:
    """Each ground lead by itself: as thick as its supply, and short."""
    if not supply.branches:
        lead = supply.ground_lead_m
        return ground_flags(runs[0].conductor, runs[0].conductor, lead, defaults) if lead else []
    return [
        flag
        for run, branch in zip(runs[1:], supply.branches, strict=False)
        if branch.return_m > 0
        for flag in ground_flags(run.conductor, run.conductor, branch.return_m, defaults)
    ]


def restart_supply_v(vehicle: Vehicle) -> float | None:
    """Return the lowest the car's supply was read at while the engine restarted by itself. [V]"""
    volts = [reading.value for reading in supply_dips(vehicle) if reading.value is not None]
    return min(volts, default=None)


def sensor_flags(parts: JobParts) -> list[PackFlag]:
    """Return the flag of a ground that a sensor on the negative post would not see."""
    if parts.vehicle.power.battery.sensor_on_negative == "no":
        return []
    if parts.job.supply.ground_point == "body_side":
        return []
    says = (
        "a sensor on the negative post counts what flows: ground on the body side of it, or the "
        "charge is misread and start-stop stays off"
    )
    return [PackFlag("ground_before_sensor", "ground point", says)]
