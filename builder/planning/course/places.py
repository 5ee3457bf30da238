"""What has to be out of the way, and which plugs off, where something is joined or read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from builder.model.job import AT_RADIO
from builder.model.vehicle import Vehicle
from builder.planning.car.access import parts_over
from builder.planning.car.route_zones import touches
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, EndId, Joint
from builder.planning.circuit.terminal_names import source_name
from builder.planning.course.car_changes import HOME, OPEN, CarHands, reach_of
from builder.planning.course.car_states import plug_of
from builder.planning.course.model import Needs, among, needs
from builder.planning.power.main_fuse import BY_THE_BATTERY
from builder.planning.words import HowItStands

APART = among("off", "in loom")
"""How a plug may stand while its unit is to be out of the way."""
NOTHING: Final[Mapping[str, str]] = MappingProxyType({})
_AT_BATTERY = ("battery", "battery −", BY_THE_BATTERY)


def fuse_places(vehicle: Vehicle) -> dict[str, str]:
    """Return where each fuse position is."""
    return {each.position: each.at_panel for each in vehicle.fuse_positions}


def plug_in(terminal: EndId) -> str:
    """Return the plug of a cavity, or of the cavity of a unit that it goes into.

    >>> plug_in("A.11"), plug_in("factory amplifier C.3")
    ('A', 'C')
    """
    return terminal.rpartition(".")[0].rpartition(" ")[2]


def reached_at(vehicle: Vehicle, place: str) -> str:
    """Return where a place of a job is in the words of the car's record: its fuse panel, where
    its battery stands."""
    if place in _AT_BATTERY:
        return vehicle.power.battery.location
    return fuse_places(vehicle).get(place, place)


class Places:
    """The places of one job in one car."""

    def __init__(self, hands: CarHands, named: Mapping[str, str] = NOTHING) -> None:
        """`named` says where a thing of the job stands that joints are named after."""
        self.hands, self._named = hands, named
        self._units = {source_name(plug.unit) for plug in hands.vehicle.plugs}

    def open_at(self, places: Iterable[str]) -> Needs:
        """Return what is open when these places can be reached."""
        found: dict[str, frozenset[HowItStands]] = {}
        for place in (self._named.get(each, each) for each in places):
            if place in self._units or "plug " in place:
                found |= self._at_plugs(place)
            else:
                found |= self._over(reached_at(self.hands.vehicle, place))
                found |= needs(radio="pulled") if touches(place, AT_RADIO) else {}
        return found

    def _over(self, place: str) -> Needs:
        over = parts_over(self.hands.vehicle, place)
        return {part.name: OPEN for part in over if part in self.hands.parts}

    def unit_of(self, what: str) -> str:
        """Return what a plug of the car goes into: "radio" of "plug A"."""
        return next(source_name(x.unit) for x in self.hands.vehicle.plugs if plug_of(x.id) == what)

    def _at_plugs(self, place: str) -> Needs:
        named = [each for each in self.hands.plugs if place.endswith(plug_of(each.id))]
        at = named or [each for each in self.hands.plugs if source_name(each.unit) == place]
        if not at:
            return self._over(place)
        found: dict[str, frozenset[HowItStands]] = {}
        for plug in at:
            found |= reach_of(self.hands, plug)
        return found

    def plugs_apart(self, index: CircuitIndex, joints: Sequence[Joint]) -> Needs:
        """Return which plugs are off while joints on their wires are made."""
        ids = {self._plug_of(index, end) for joint in joints for end in joint.joins}
        own = {plug_of(each.id) for each in self.hands.plugs}
        return dict.fromkeys(sorted(ids & own), APART)

    def _plug_of(self, index: CircuitIndex, end: EndId) -> str:
        owner = index.owners.get(end)
        if isinstance(owner, CircuitWire):
            return plug_of(owner.place.rpartition(".")[0]) if owner.stays else ""
        if owner is not None:
            return ""
        return plug_of(plug_in(end)) if index.unit_of(end).kind == "plug" else ""

    def at_home(self, plugs: Iterable[str]) -> Needs:
        """Return that these plugs are in their unit, and can be reached there."""
        found: dict[str, frozenset[HowItStands]] = {}
        for plug in self.hands.plugs:
            if plug.id in plugs:
                found |= {**reach_of(self.hands, plug), plug_of(plug.id): HOME}
        return found
