"""What the book keeps of a vehicle after its page is written: small enough for 10,000 of them."""

from __future__ import annotations

from typing import NamedTuple

from builder.findings import DataPath
from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Question, Scope, Vehicle
from builder.model.words import Channel, Face, Function, Leg


class PinSummary(NamedTuple):
    """One pin, as book-wide rules and the finder need it."""

    plug: str
    housing: str
    cavity: str
    function: Function
    channel: Channel | None
    leg: Leg | None
    base: str | None
    stripe: str | None
    path: DataPath
    read_from: Face = "unknown"  # the face its plug was counted on


class VehicleSummary(NamedTuple):
    """One vehicle, as book-wide rules and the finder need it."""

    id: str
    file: str
    make: str
    model: str
    variant: str
    title: str
    scope: Scope
    how_to_tell: tuple[Question, ...]
    pins: tuple[PinSummary, ...]
    contributors: tuple[str, ...] = ()  # handles of who measured or claimed something


def summarise(vehicle: Vehicle, file: str) -> VehicleSummary:
    """Return the summary of `vehicle`, which was read from `file`."""
    return VehicleSummary(
        vehicle.id,
        file,
        vehicle.make,
        vehicle.model,
        vehicle.variant,
        vehicle.title,
        vehicle.scope,
        vehicle.how_to_tell,
        tuple(_pin_summary(plug, pin) for plug in vehicle.plugs for pin in plug.pins),
        tuple(sorted(vehicle.handles)),
    )


def _pin_summary(plug: Plug, pin: Pin) -> PinSummary:
    return PinSummary(
        plug.id,
        plug.housing,
        pin.cavity,
        pin.function,
        pin.channel,
        pin.leg,
        pin.wire.base if pin.wire else None,
        pin.wire.stripe if pin.wire else None,
        pin.path,
        plug.read_from,
    )
