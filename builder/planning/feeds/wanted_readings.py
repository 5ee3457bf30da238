"""The readings that prove a whole plan, and those that could clear a barred pair."""

from __future__ import annotations

from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.planning.car.measurements import pair_readings, place_readings
from builder.planning.car.selection import Selection
from builder.planning.car.sources import Sources
from builder.planning.car.turn_on_places import Place
from builder.planning.plan import ProofReading


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


def barred_readings(
    vehicle: Vehicle, sources: Sources, defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return what to measure on the pairs that a finding keeps from being used."""
    return tuple(
        reading
        for pair in sources.barred_pairs.values()
        for reading in pair_readings(vehicle, pair, defaults)
    )
