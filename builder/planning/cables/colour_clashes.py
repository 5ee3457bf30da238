"""Colours that could deceive: of our cables among each other, and against the car's wires."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from builder.model.names import SINGULAR_NAMES, channel_name
from builder.model.wire import Wire
from builder.model.words import Channel, Function, Leg
from builder.planning.cables.allocation import Allocation, ConductorUse
from builder.planning.cables.piece_names import CABLE, cable_name, cables_named
from builder.planning.words import DemandKind


@dataclass(frozen=True, slots=True)
class CarWire:
    """A wire of the car at the place where ours are joined."""

    where: str  # "A.4"
    function: Function
    channel: Channel | None
    leg: Leg | None
    wire: Wire


@dataclass(frozen=True, slots=True)
class ColourClash:
    """Two conductors of one colour that do different work. `expected` ones need only labels."""

    colours: str
    ours: str
    other: str
    expected: bool
    purpose: str  # of our conductor; "" between cables
    work: str  # of what it could be taken for; "" between cables

    @property
    def says(self) -> str:
        """The clash by itself, in words."""
        return clash_words([self])[0]


_MATCHING: dict[DemandKind, frozenset[Function]] = {
    "signal": frozenset({"speaker", "line"}),
    "amplified": frozenset({"speaker"}),
    "supply": frozenset({"constant", "ground"}),
    "control": frozenset({"amplifier_on", "retained", "accessory", "run"}),
}


def colour_clashes(
    allocation: Allocation, car_wires: Iterable[CarWire] = ()
) -> tuple[ColourClash, ...]:
    """Return where colour alone would mislead: between cables, and against the car's wires."""
    at_plug = tuple(car_wires)
    with_car = (
        clash
        for use in allocation.uses
        if use.demand is not None
        for car in at_plug
        for clash in _against_car(use, car)
    )
    return (*_between_jackets(allocation), *with_car)


def _between_jackets(allocation: Allocation) -> list[ColourClash]:
    jackets: dict[str, list[int]] = defaultdict(list)
    for use in allocation.uses:
        if use.demand is not None:
            jackets[use.colours].append(use.jacket)
    return [
        ColourClash(
            colours,
            cable_name(found[0]),
            cables_named(found[1:]),
            True,
            "",
            "",
        )
        for colours, found in jackets.items()
        if len(set(found)) > 1
    ]


def _against_car(use: ConductorUse, car: CarWire) -> list[ColourClash]:
    if _colours(car.wire) != use.colours or _same_work(use, car):
        return []
    assert use.demand is not None
    ours = f"{use.place} of {cable_name(use.jacket)}, {use.demand.purpose}"
    work = " ".join(
        word for word in (channel_name(car.channel), car.leg, SINGULAR_NAMES[car.function]) if word
    )
    return [ColourClash(use.colours, ours, car.where, False, use.demand.purpose, work)]


def clash_words(clashes: Sequence[ColourClash]) -> tuple[str, ...]:
    """Return what is to be told, once for all cables alike and once for each wire of the car."""
    jackets: dict[str, list[str]] = defaultdict(list)
    wires: dict[tuple[str, str, str], list[str]] = defaultdict(list)
    for clash in clashes:
        if clash.expected:
            jackets[_numbers(clash)].append(clash.colours)
        else:
            wires[clash.colours, clash.other, clash.work].append(clash.purpose)
    return (
        *(_alike(numbers, colours) for numbers, colours in jackets.items()),
        *(_mistaken(*key, purposes) for key, purposes in wires.items()),
    )


def _numbers(clash: ColourClash) -> str:
    return f"{clash.ours.removeprefix(CABLE)}, {clash.other.split(' ', 1)[1]}"


def _alike(numbers: str, colours: list[str]) -> str:
    verb = "is" if len(colours) == 1 else "are"
    return f"{', '.join(colours)} {verb} in cables {numbers}: go by the labels"


def _mistaken(colours: str, where: str, work: str, purposes: list[str]) -> str:
    ours = ", ".join(dict.fromkeys(purposes))
    return f"the car's {colours} at {where} is {work}, ours is {ours}: label it"


def _same_work(use: ConductorUse, car: CarWire) -> bool:
    demand = use.demand
    if demand is None or car.function not in _MATCHING[demand.kind]:
        return False
    if not demand.pair:
        return True
    return demand.channel == car.channel and (car.leg is None or use.place.endswith(car.leg))


def _colours(wire: Wire) -> str:
    return f"{wire.base}/{wire.stripe}" if wire.stripe else wire.base
