"""Which wires of a car feed a data interface: by its own plug, or joined at another of the unit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from builder.model.parts import Interface
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.planning.car.interface_fit import plug_for
from builder.planning.car.pairs import Leg

FEEDS: Final[tuple[Function, ...]] = ("constant", "constant_sleeps")
GROUNDS: Final[tuple[Function, ...]] = ("ground",)


def fed_at(vehicle: Vehicle, own: Plug, functions: tuple[Function, ...]) -> Leg | None:
    """Return the pin that feeds an interface: in the plug that its own goes between, else in the
    unit's others."""
    plugs = [own, *(each for each in vehicle.plugs if each.unit == own.unit)]
    legs = (Leg(plug, pin) for plug in plugs for pin in plug.pins if pin.function in functions)
    return next(legs, None)


def joined_legs(vehicle: Vehicle, interface: Interface) -> Iterator[Leg]:
    """Yield the wires at which an interface is joined: those that its own plug does not bring."""
    own = vehicle.plug(plug_for(interface, vehicle) or "")
    for functions in (FEEDS, GROUNDS):
        leg = fed_at(vehicle, own, functions) if own else None
        if leg is not None and leg.plug is not own:
            yield leg
