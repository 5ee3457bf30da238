"""What of a car the work moves: parts over its places, the radio, plugs it reads or joins."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from builder.model.access import AccessPart
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.planning.car.access import parts_over, radio_parts
from builder.planning.circuit.terminal_names import LINK_FUSE, SECOND
from builder.planning.course.car_changes import HOME, CarHands
from builder.planning.course.car_states import (
    BATTERY,
    KEY,
    MAIN_FUSE,
    PLAY,
    RADIO,
    RADIO_SET,
    plug_of,
)
from builder.planning.course.model import Needs, State, among
from builder.planning.words import HowItStands
from builder.planning.work_pack import BayTest


def hands_of(
    vehicle: Vehicle,
    house: HouseDefaults,
    tests: Iterable[BayTest],
    places: Iterable[str],
    joined: Iterable[str] = (),
    zones: tuple[str, ...] = (),
    *,
    tone_at: str,
    slides: bool = False,
) -> CarHands:
    """Return what is moved for these lines of a sheet, at these places, on these joined plugs."""
    asked = tuple(tests)
    read = {test.reading.plug for test in asked if test.reading} | set(joined)
    plugs = [plug for plug in vehicle.plugs if plug.id in read]
    found: dict[str, AccessPart] = {}
    at_hand = open_before(vehicle)
    for place in (*places, *at_hand, *(plug.location for plug in plugs if plug.unit != "radio")):
        found |= {part.name: part for part in parts_over(vehicle, place)}
    if any(plug.unit == "radio" for plug in plugs):
        found |= {part.name: part for part in radio_parts(vehicle)}
    return CarHands(
        vehicle, tuple(found.values()), plugs, house, zones, tone_at,
        asleep_wait_min(asked, house), slides,
    )  # fmt: skip


def asleep_wait_min(tests: Iterable[BayTest], house: HouseDefaults) -> float:
    """Return how long a car is left alone before these lines are read asleep. [min]

    A draw is compared with another, and a constant has to outlast the network: both wait longer
    than a wire that is off with the key.
    """
    asleep = [test.reading for test in tests if test.state == "asleep"]
    long = any(reading is None or reading.function == "constant" for reading in asleep)
    return house.asleep_proved_min if long else house.asleep_min


def open_before(vehicle: Vehicle) -> tuple[str, ...]:
    """Return the place of the car's own battery, where what lies over it may come off while it
    is on; else nothing."""
    place = vehicle.power.battery.location
    guarded = any(part.restraint != "no" for part in parts_over(vehicle, place))
    return () if guarded else (place,)


def begins(hands: CarHands, others: State) -> dict[str, HowItStands]:
    """Return the car as it comes: whole, asleep or not, nothing of ours in it."""
    return {
        **{part.name: "on" for part in hands.parts},
        RADIO: "fitted",
        **{plug_of(plug.id): "home" for plug in hands.plugs},
        BATTERY: "on",
        MAIN_FUSE: "absent",
        KEY: "off",
        PLAY: "off",
        RADIO_SET: "noted",
        **others,
    }


def whole(hands: CarHands) -> Needs:
    """Return what a car is that can be driven."""
    return {
        **{part.name: among("on") for part in hands.parts},
        RADIO: among("fitted"),
        **{plug_of(plug.id): HOME for plug in hands.plugs},
        BATTERY: among("on"),
    }


def order(hands: CarHands, others: Sequence[str], over: Collection[str] = ()) -> tuple[str, ...]:
    """Return what is moved before what: what lies outside first, the key last.

    `over` is what lies over a battery or a fuse: it comes off before them by what they need, and
    is closed behind them.
    """
    return (
        *(part.name for part in hands.parts if part.name not in over),
        RADIO,
        *(plug_of(plug.id) for plug in hands.plugs),
        *others,
        SECOND,
        BATTERY,
        MAIN_FUSE,
        LINK_FUSE,
        *(part.name for part in hands.parts if part.name in over),
        KEY,
        RADIO_SET,
        PLAY,
    )
