"""The readings that pins still wait for, one after another state of the car."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.model.words import STATES, State
from builder.planning.car.measurements import pair_readings, pin_readings
from builder.planning.car.pairs import Pair, find_pairs
from builder.planning.plan import ProofReading
from builder.planning.trust import position_as_pin


def open_readings(
    vehicle: Vehicle, waiting: Iterable[DataPath], defaults: HouseDefaults
) -> tuple[ProofReading, ...]:
    """Return what still has to be read of pins and fuse positions for them to be proved.

    Args:
        vehicle: The car.
        waiting: Paths of its pins and fuse positions, or of something in them.
        defaults: House defaults of the book.
    """
    paths = {path[:4] if path[:1] == ("plugs",) else path[:2] for path in waiting}
    return tuple(dict.fromkeys(_readings(vehicle, paths, defaults)))


def _readings(
    vehicle: Vehicle, paths: set[DataPath], defaults: HouseDefaults
) -> Iterator[ProofReading]:
    pairs = find_pairs(vehicle, defaults)
    legs = {leg.pin.path: pair for pair in pairs for leg in pair.legs}
    done: set[int] = set()
    for plug in vehicle.plugs:
        for pin in (pin for pin in plug.pins if pin.path in paths):
            pair: Pair | None = legs.get(pin.path)
            if pair is None:
                where = (plug.id, pin.cavity, None)
                yield from pin_readings(vehicle, pin, where, defaults, open_only=True)
            elif id(pair) not in done:
                done.add(id(pair))
                yield from pair_readings(vehicle, pair, defaults, open_only=True)
    for each in (each for each in vehicle.fuse_positions if each.path in paths):
        pin = position_as_pin(each)
        where_fuse = (None, None, each.position)
        yield from pin_readings(vehicle, pin, where_fuse, defaults, open_only=True)


_ORDER: dict[State, int] = {state: at for at, state in enumerate(STATES)}


def by_state(readings: Sequence[ProofReading]) -> list[ProofReading]:
    """Return readings in the order of a visit: a state of the car is made once, and what is read
    in it in the same way stands together; with a plug off last.
    """
    ways = [way_of(each) for each in readings]
    return sorted(readings, key=lambda each: (_ORDER[each.state], ways.index(way_of(each))))


def way_of(reading: ProofReading) -> str:
    """Return how it is read, without the band."""
    return reading.how.rpartition(": ")[0]


def each_once(readings: Iterable[ProofReading]) -> tuple[ProofReading, ...]:
    """Return the first of those readings that are the same but for what they settle."""
    once: dict[tuple[object, ...], ProofReading] = {}
    for each in readings:
        once.setdefault(_key(each), each)
    return tuple(once.values())


def _key(each: ProofReading) -> tuple[object, ...]:
    point = (each.plug, each.cavity, each.fuse_position)
    return (*point, each.state, each.against, each.load, each.quantity)
