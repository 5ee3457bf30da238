"""What a resolution set aside: it stays in the record, and speaks neither for a pin nor against."""

from __future__ import annotations

from dataclasses import replace

from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.proof.grading.weighing import place_of


def retired_at(vehicle: Vehicle, plug: str, cavity: str) -> frozenset[str]:
    """The visits and contributors whose word on a place no longer counts.

    `plug` is "" for a fuse position, whose name is `cavity`.
    """
    name = f"{plug}.{cavity}" if plug else cavity
    return frozenset(who for r in vehicle.resolutions if r.pin == name for who in r.retires)


def counted_vehicle(vehicle: Vehicle) -> Vehicle:
    """The vehicle with the readings that count; the same one where nothing was settled."""
    if not vehicle.resolutions:
        return vehicle
    plugs = tuple(
        replace(plug, pins=tuple(counted_pin(vehicle, pin) for pin in plug.pins))
        for plug in vehicle.plugs
    )
    return replace(vehicle, plugs=plugs)


def counted_pin(vehicle: Vehicle, pin: Pin) -> Pin:
    """A pin with its readings but those that were set aside."""
    retired = retired_at(vehicle, *place_of(vehicle, pin).cavity)
    if not retired:
        return pin
    by = {session.id: session.by for session in vehicle.sessions}
    kept = tuple(
        reading
        for reading in pin.readings
        if not {reading.session, by.get(reading.session, "")} & retired
    )
    return replace(pin, readings=kept)
