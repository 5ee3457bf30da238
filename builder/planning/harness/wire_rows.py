"""The wire list of a loom: each wire of it, what becomes of it, and what is joined to its sides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from builder.model.names import LEG_SIGNS, SINGULAR_NAMES, channel_name
from builder.model.parts.loom import Branch, LoomEnd
from builder.model.parts.loom_wires import Point
from builder.model.pin import Pin
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.loom_wires import (
    brought_out,
    cut_wires,
    free_end,
    half_wire,
    whole_wire,
)
from builder.planning.circuit.model import (
    CircuitWire,
    Element,
    EndId,
    Joint,
    colours_of,
    end_of,
)
from builder.planning.circuit.terminal_names import loom_terminal
from builder.planning.harness.cut_places import cut_places
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import CLOSED_OFF, LoomDoing, LoomJointRow, LoomWireRow
from builder.planning.looms.conductors import Conductor, Terminal, length_m
from builder.planning.power.conductors import conductor_of
from builder.planning.views.names import end_words
from builder.planning.words import JointKind

JOINED_HERE: Final[tuple[JointKind, ...]] = ("splice", "tap")
"""How something is joined to a side of a wire of a loom."""


class WireSide(NamedTuple):
    """A side of a wire of a loom where something is joined or closed off."""

    end: str  # the loom's end that it is on the side of
    at: EndId


class WireOfLoom:
    """One wire on its way to its row."""

    def __init__(self, plan: LoomPlan, index: CircuitIndex, wire: Conductor) -> None:
        self.plan, self.index, self.wire = plan, index, wire
        self.spots = (wire.start, wire.to)
        self.cut = wire in cut_wires(plan)

    @property
    def name(self) -> str:
        """Between which points it runs."""
        return f"{self.wire.start.shown} to {self.wire.to.shown}"

    @property
    def colour(self) -> str:
        """What it looks like."""
        return colours_of(self.wire.wire) if self.wire.wire else "not recorded"

    def row(self, joints: Sequence[LoomJointRow]) -> LoomWireRow:
        """The wire's row; `joints` are those of the whole loom."""
        metal, pin = conductor_of(self.wire.wire), self._pin()
        unit, car = (end.name for end in self.plan.ends)
        return LoomWireRow(
            wire=self.name,
            carries=pin_words(pin)
            if self._at_end()
            else f"{self.wire.carries or 'branch'}, no cavity",
            doing=self._doing(),
            car_colour=colours_of(pin.wire) if pin and pin.wire else "none",
            loom_colour=self.colour,
            size=metal.words if metal else "not recorded",
            length_m=length_m(self.plan.use.loom, self.wire),
            joint_mm=self.joint_mm(),
            unit_side=self._side(unit),
            car_side=self._side(car),
            joints=tuple(each.number for each in joints if each.wire == self.name),
            fuse="" if self.wire.fuse_a is None else f"{self.wire.fuse_a:g} A",
        )

    def _at_end(self) -> str:
        """The cavity at an end of the loom; nothing of a wire inside it."""
        ends = {end.name for end in self.plan.ends}
        return next((spot.cavity for spot in self.spots if spot.place in ends), "")

    def _pin(self) -> Pin | None:
        cavity = self._at_end()
        return next((pin for pin in self.plan.use.plug.pins if pin.cavity == cavity), None)

    def _doing(self) -> LoomDoing:
        if self.cut:
            return "cut"
        if self.wire in brought_out(self.plan):
            return "branch"
        if self._tap() is not None:
            return "beside"
        bare = any(spot.of for spot in self.spots)
        return "closed" if bare else "through"

    def _tap(self) -> Point | None:
        points = {Point(spot.place, spot.cavity) for spot in self.spots}
        return next((tap for tap in self.plan.taps if tap in points), None)

    def joint_mm(self) -> float | None:
        """Where it is cut or joined beside, from the back of the unit's end [mm]."""
        points = {Point(spot.place, spot.cavity) for spot in self.spots}
        found = (at for point, at in cut_places(self.plan).items() if point in points)
        at = next(found, None)
        return None if at is None else round(1000 * at)

    def sides(self) -> Iterator[WireSide]:
        """The sides where something is joined or closed off: the unit's, then the car's."""
        for end in self.plan.ends:
            spot = next((each for each in self.spots if each.place == end.name), None)
            at = None if spot is None else self._open_at(end, spot)
            if at is not None:
                yield WireSide(end.name, at)

    def _open_at(self, end: LoomEnd, spot: Terminal) -> EndId | None:
        """What a side of the wire can be joined at; None where it only goes through."""
        if self.cut:
            return end_of(half_wire(self.plan, spot), "to")
        if self.wire in brought_out(self.plan):
            return free_end(self.plan, end, spot.cavity)
        if Point(*spot[:2]) in self.plan.taps:
            return loom_terminal(self.plan.use.name, spot.place, spot.cavity)
        if any(each.of for each in self.spots):
            return end_of(whole_wire(self.plan, self.wire), "to" if self.wire.to.of else "from")
        return None

    def _side(self, end: str) -> str:
        """What is joined to the side of an end; nothing where the wire only goes through."""
        side = next((each for each in self.sides() if each.end == end), None)
        if side is None:
            return ""
        joints = self.joints_at(side)
        return " and ".join(self.joined_at(side, each) for each in joints) or CLOSED_OFF

    def joints_at(self, side: WireSide) -> list[Joint]:
        """The joints that are made at a side; none where it is closed off."""
        found = self.index.joints_of.get(side.at, [])
        return [each for each in found if each.kind in JOINED_HERE and self.joined_at(side, each)]

    def cores_at(self, side: WireSide) -> Iterator[CircuitWire]:
        """The conductors that are joined to a side."""
        for joint in self.joints_at(side):
            for end in self.met_at(side, joint):
                owner = self.index.owners.get(end)
                if isinstance(owner, CircuitWire):
                    yield owner

    def branch_of(self, end: str) -> Branch | None:
        """The branch that brings the wire of an end out; None of any other wire."""
        if end not in {spot.place for spot in self.spots}:
            return None
        places = {spot.place for spot in self.spots}
        return next((each for each in self.plan.use.loom.branches if each.name in places), None)

    def joined_at(self, side: WireSide, joint: Joint) -> str:
        """What is joined to a side of the wire in a joint, and where it leads."""
        met = self.met_at(side, joint)
        return " and ".join(end_words(self.index, end) + self._behind(end) for end in met)

    def met_at(self, side: WireSide, joint: Joint) -> list[EndId]:
        """The ends that meet a side of the wire in a joint, but for those of the wire itself."""
        own = {whole_wire(self.plan, self.wire), *(half_wire(self.plan, s) for s in self.spots)}
        return [
            other
            for other in joint.joins
            if other != side.at
            and ((owner := self.index.owners.get(other)) is None or owner.id not in own)
        ]

    def _behind(self, end: EndId) -> str:
        """Where it leads on: through a fuse, or to the terminal at the other end of a cable."""
        part = self.index.owners.get(end)
        if not isinstance(part, Element):
            return self.onward(end)
        far = next(each for each in part.ends if each != end)
        joints = [j for j in self.index.joints_of.get(far, []) if j.kind == "element_lead"]
        met = [e for joint in joints for e in joint.joins if e != far]
        wires = [e for e in met if e in self.index.owners]
        return "".join(f", then {end_words(self.index, e)}{self.onward(e)}" for e in wires)

    def onward(self, end: EndId) -> str:
        """Where a cable leads: ", to " and the terminal at its other end."""
        owner = self.index.owners.get(end)
        link = self.index.link_of(owner) if isinstance(owner, CircuitWire) else None
        if link is None:
            return ""
        begins = self.index.unit_of(link.begins).kind in ("loom", "plug", "fuse_position")
        return f", to {link.finishes if begins else link.begins}"


def pin_words(pin: Pin | None) -> str:
    """Return what a wire of the car is: "front left speaker leg +"."""
    if pin is None:
        return "nothing in the car's plug"
    sign = f" {LEG_SIGNS[pin.leg]}" if pin.leg else ""
    return f"{channel_name(pin.channel)} {SINGULAR_NAMES[pin.function]}{sign}".strip()
