"""Whether a data interface fits a car: by the plug that its own goes between, and by its bus."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from builder.model.parts import Interface, InterfaceOutput
from builder.model.parts.interface import Bus
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN, Function

BUS_WIRES: Mapping[Bus, frozenset[Function]] = {
    "two_wire": frozenset({"data_high", "data_low"}),
    "one_wire": frozenset({"data_single"}),
}
"""The wires of each bus; a plug carries the bus when it has them all."""


def bus_plug(interface: Interface, wires: Iterable[tuple[str, str, Function]]) -> str | None:
    """Return the plug of a car that an interface goes between, None when it fits none.

    Args:
        interface: What reads the bus.
        wires: The car's wires, each as (plug, housing of the plug, function).
    """
    wanted, fitting = BUS_WIRES[interface.needs.bus], {*interface.needs.plugs} - {UNKNOWN}
    found: defaultdict[tuple[str, str], set[Function]] = defaultdict(set)
    for plug, housing, function in wires:
        if housing in fitting:
            found[plug, housing].add(function)
    return next((plug for (plug, _), functions in found.items() if wanted <= functions), None)


def plug_for(interface: Interface, vehicle: Vehicle) -> str | None:
    """The same of a vehicle."""
    return bus_plug(
        interface,
        ((plug.id, plug.housing, pin.function) for plug in vehicle.plugs for pin in plug.pins),
    )


def bus_pins(interface: Interface, vehicle: Vehicle, plug_id: str) -> list[Pin]:
    """Return the data wires that an interface reads in a plug of the car."""
    plug = vehicle.plug(plug_id)
    pins = plug.pins if plug else ()
    return [pin for pin in pins if pin.function in BUS_WIRES[interface.needs.bus]]


def switching_outputs(interface: Interface) -> list[InterfaceOutput]:
    """Return the outputs that may switch an amplifier on, best first: never lights or reverse."""
    found = (interface.output("amplifier_on"), interface.output("accessory"))
    return [output for output in found if output is not None]
