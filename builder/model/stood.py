"""A vehicle's record as it stood on a day: without what was measured, said or settled later."""

from __future__ import annotations

from dataclasses import replace

from builder.model.pin import Pin
from builder.model.reading import Reading
from builder.model.vehicle import Vehicle


def stood_on(vehicle: Vehicle, day: str) -> Vehicle:
    """Return what was known of a vehicle at the end of a day, YYYY-MM-DD.

    Every pin keeps its data path. What has no date of its own, a colour or a place, is taken as it
    is today: nobody wrote down when it came.
    """
    later = {session.id for session in vehicle.sessions if session.date > day}
    plugs = tuple(
        replace(plug, pins=tuple(_pin(pin, later, day) for pin in plug.pins))
        for plug in vehicle.plugs
    )
    positions = tuple(
        replace(each, readings=_readings(each.readings, later)) for each in vehicle.fuse_positions
    )
    return replace(
        vehicle,
        sessions=tuple(session for session in vehicle.sessions if session.id not in later),
        plugs=plugs,
        fuse_positions=positions,
        resolutions=tuple(each for each in vehicle.resolutions if each.date <= day),
    )


def _pin(pin: Pin, later: set[str], day: str) -> Pin:
    claims = tuple(claim for claim in pin.claims if claim.date <= day)
    return replace(pin, readings=_readings(pin.readings, later), claims=claims)


def _readings(readings: tuple[Reading, ...], later: set[str]) -> tuple[Reading, ...]:
    return tuple(reading for reading in readings if reading.session not in later)
