"""Which pins make a pair: the two legs of one channel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.plugs import Pin, Plug
from builder.model.vehicle import Vehicle
from builder.model.words import PAIRED, Channel, Function, Leg, Unit

Spot = tuple[Plug, Pin]
PairName = tuple[Function, Channel, Unit]


def legs_of_pairs(vehicle: Vehicle) -> dict[PairName, dict[Leg, list[Spot]]]:
    """Return the described legs of each channel at each unit, in the order of the record.

    A leg is missing where it is not described, and stands there twice where the record describes
    it twice, for two trims.
    """
    found: dict[PairName, dict[Leg, list[Spot]]] = {}
    for plug in vehicle.plugs:
        for pin in plug.pins:
            if pin.function in PAIRED and pin.channel is not None and pin.leg is not None:
                legs = found.setdefault((pin.function, pin.channel, plug.unit), {})
                legs.setdefault(pin.leg, []).append((plug, pin))
    return found


def is_other_leg(pin: Pin, other: Pin) -> bool:
    """Return whether two pins are the two legs of one channel."""
    return (other.function, other.channel) == (pin.function, pin.channel) and other.leg != pin.leg


def other_legs(pin: Pin, plugs: Iterable[Plug]) -> Iterator[Spot]:
    """Yield each pin of the plugs that is the other leg of a pin's channel."""
    for plug in plugs:
        for other in plug.pins:
            if is_other_leg(pin, other):
                yield plug, other
