"""What proves the wires of the car at which a data interface is joined."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Interface
from builder.model.vehicle import Vehicle
from builder.planning.car.interface_supply import joined_legs
from builder.planning.car.measurements import pin_readings
from builder.planning.plan import ProofReading


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
