"""The readings that prove a whole plan, and those that could clear a barred pair."""

from __future__ import annotations

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.planning.car.measurements import Where, pair_readings, pin_readings, place_readings
from builder.planning.car.pairs import find_pairs
from builder.planning.car.selection import Selection
from builder.planning.car.sources import Sources
from builder.planning.car.turn_on_place import Place
from builder.planning.plan import ProofReading
from builder.planning.trust import blocks, position_as_pin


def proving_readings(
    vehicle: Vehicle, selection: Selection, place: Place | None, defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return the readings of every used pin; they must pass before a joint is made."""
    found: list[ProofReading] = []
    for tap in selection.touched:
        found += pair_readings(vehicle, tap.pair, defaults)
    if place is not None:
        found += place_readings(vehicle, place, defaults)
    return tuple(found)


def readings_at(
    vehicle: Vehicle, path: DataPath, defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return what is still to be read at the pin or fuse position that a data path leads to."""
    for pair in find_pairs(vehicle, defaults):
        if any(blocks(path, leg.pin.path) for leg in pair.legs):
            return tuple(pair_readings(vehicle, pair, defaults, open_only=True))
    places: list[tuple[Where, Pin]] = [
        ((plug.id, pin.cavity, None), pin) for plug in vehicle.plugs for pin in plug.pins
    ]
    fuses = vehicle.fuse_positions
    places += [((None, None, fuse.position), position_as_pin(fuse)) for fuse in fuses]
    return tuple(
        reading
        for where, pin in places
        if blocks(path, pin.path)
        for reading in pin_readings(vehicle, pin, where, defaults, open_only=True)
    )


def barred_readings(
    vehicle: Vehicle, sources: Sources, defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return what to measure on the pairs that a finding keeps from being used."""
    return tuple(
        reading
        for pair in sources.barred_pairs.values()
        for reading in pair_readings(vehicle, pair, defaults)
    )
