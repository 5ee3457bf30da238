"""Where the supply goes through the bulkhead, as far as somebody said."""

from __future__ import annotations

from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.route_zones import touches


def supply_ways_unsaid(job: Job, vehicle: Vehicle) -> tuple[str, ...]:
    """Return the ways that lead from the battery, where the job chose none for its supply."""
    if any("supply" in each.carries for each in job.passes):
        return ()
    battery = vehicle.power.battery.location
    return tuple(
        passage.name
        for passage in vehicle.passages
        if any(touches(battery, end) for end in passage.between)
    )
