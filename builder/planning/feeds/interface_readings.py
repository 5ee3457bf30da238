"""What proves the wires of the car at which a data interface is joined, and what speaks against."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Interface
from builder.model.vehicle import Vehicle
from builder.planning.car.interface_supply import joined_legs
from builder.planning.car.measurements import pin_readings
from builder.planning.feeds.converter_feed import FeedJudge
from builder.planning.objections import Objection
from builder.planning.plan import ProofReading
from builder.planning.trust import Trust


def interface_readings(
    vehicle: Vehicle, used: Iterable[Interface], defaults: HouseDefaults
) -> list[ProofReading]:
    """Return them; what an interface gets by its own plug needs no proof."""
    return [
        reading
        for interface in used
        for leg in joined_legs(vehicle, interface)
        for reading in pin_readings(vehicle, leg.pin, (leg.plug.id, leg.pin.cavity, None), defaults)
    ]


def interface_objections(
    used: Sequence[Interface], trust: Trust, defaults: HouseDefaults
) -> tuple[Objection, ...]:
    """Return what stands against joining an interface there: each wire proved as any supply."""
    judge = FeedJudge(trust, defaults)
    return tuple(
        objection
        for interface in used
        for leg in joined_legs(trust.vehicle, interface)
        for objection in replace(judge, device=interface.name).against(
            (leg.plug.id, leg.pin.cavity, None), leg.pin
        )
    )
