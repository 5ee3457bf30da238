"""Where the supply goes through the bulkhead, as far as somebody said."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.planning.car.route_zones import touches

ENGINE_BAY = "engine bay"


@dataclass(frozen=True, slots=True)
class UnsaidWay:
    """A supply that has to come through a bulkhead, nobody said where.

    `on_record` are the car's ways that lead from the battery; none where nobody listed any.
    """

    on_record: tuple[str, ...]

    @property
    def listed(self) -> str:
        """What the car's record lists, as people read it."""
        return ", ".join(self.on_record) or "no way through it"


def unsaid_supply_way(job: Job, vehicle: Vehicle) -> UnsaidWay | None:
    """Return what is known of the supply's way, where the job has to choose one and did not.

    A record without any way says nothing against a bulkhead: from a battery in the engine bay to
    an amplifier that is not there the supply passes one all the same.
    """
    if any("supply" in each.carries for each in job.passes):
        return None
    battery = vehicle.power.battery.location
    ways = tuple(
        passage.name
        for passage in vehicle.passages
        if any(touches(battery, end) for end in passage.between)
    )
    unlisted = not vehicle.passages and touches(battery, ENGINE_BAY)
    inside = any(not touches(each.place, ENGINE_BAY) for each in job.amplifiers)
    return UnsaidWay(ways) if ways or (unlisted and inside) else None
