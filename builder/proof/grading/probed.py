"""Whether a meter was ever on a wire, or only on the other wire of its pair."""

from __future__ import annotations

from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.proof.grading.weighing import place_of

UNREAD = "no meter was ever on this wire; what is known was read at the other of its pair"
"""Why such a wire is never better than "check first"."""

READ_IT = "read this wire itself"
"""What raises it."""


def met_by_a_probe(vehicle: Vehicle, pin: Pin) -> bool:
    """Whether somebody read this wire, or read another one against it: both tips were on both."""
    if pin.readings:
        return True
    here = place_of(vehicle, pin)
    return any(
        _point(reading.against, plug.id) == here.cavity
        for plug in vehicle.plugs
        for other in plug.pins
        for reading in other.readings
    )


def _point(against: str, plug_id: str) -> tuple[str, str]:
    """The plug and cavity that a reference point names: "B.4", or "4" of the plug itself."""
    plug, dot, cavity = against.partition(".")
    return (plug, cavity) if dot else (plug_id, against)
