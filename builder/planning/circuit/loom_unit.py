"""A loom between a plug of the car and its unit: its plugs, every wire of it, what it passes on."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.names import SINGULAR_NAMES, channel_name
from builder.model.parts.loom_wires import Point
from builder.model.pin import Pin
from builder.planning.car.pairs import Leg
from builder.planning.circuit.board import OWN_HOUSING, OWN_LOOM, SLEEVE, Board
from builder.planning.circuit.car_side import FED_AS, SELF_LIMITING, plug_terminal
from builder.planning.circuit.loom_wires import (
    brought_out,
    cut_wires,
    fuse_of,
    fused_at,
    half_wire,
    lead_of,
    loom_cavity,
    terminal_of,
    whole_wire,
)
from builder.planning.circuit.model import (
    CircuitWire,
    Element,
    EndId,
    Link,
    OpenEnd,
    Terminal,
    end_of,
)
from builder.planning.circuit.terminal_names import plug_name, socket_terminal
from builder.planning.circuit.work import CircuitWork
from builder.planning.harness.cut_places import cut_places
from builder.planning.harness.planned import LoomPlan
from builder.planning.looms.conductors import Conductor, conductors, length_m
from builder.planning.looms.conductors import Terminal as Spot
from builder.planning.looms.nets import nets
from builder.planning.power.conductors import conductor_of
from builder.planning.words import LinkClass
from builder.units import Metres

_UNUSED_BRANCH = "nothing of this job is joined to it"
_CLOSED = "nothing plays this pair any more; it is cut back and closed off"


def lay_looms(board: Board, work: CircuitWork) -> None:
    """Put every loom of the job on, with the plugs that go into it and what it passes on."""
    for plan in work.looms.values():
        _LoomLaid(board, work, plan).lay()


def finish_looms(board: Board, work: CircuitWork) -> None:
    """Close off what nothing was joined to: halves that are cut back, bare branches."""
    for plan in work.looms.values():
        _LoomLaid(board, work, plan).close()


class _LoomLaid:
    """One loom on its way to the board."""

    def __init__(self, board: Board, work: CircuitWork, plan: LoomPlan) -> None:
        self.board, self.work, self.plan = board, work, plan
        self.name, self.loom = plan.use.name, plan.use.loom
        self.cut = cut_wires(plan)
        self.outside = brought_out(plan)
        self.places = cut_places(plan)
        self.behind: dict[EndId, EndId] = {}  # a fuse's lead, and the end of the wire it is in

    def lay(self) -> None:
        self.board.unit(self.name, "loom", f"between {plug_name(self.plan.use.plug)} and its unit",
                        self.loom.id)  # fmt: skip
        inside: dict[Spot, list[EndId]] = {}
        for wire in conductors(self.loom):
            for spot, end in self._wire(wire):
                inside.setdefault(spot, []).append(end)
        for spot, ends in inside.items():
            self._joined(spot, ends)
        for pin in self.plan.use.plug.pins:
            self._plugged(pin)
        self._passed_on()

    def _wire(self, wire: Conductor) -> Iterator[tuple[Spot, EndId]]:
        """Put a wire on, whole or in halves; yield what its ends sit in."""
        if wire not in self.cut:
            yield from self._whole(wire)
            return
        for spot in (wire.start, wire.to):
            id = half_wire(self.plan, spot)
            self._put(wire, id, f"{spot.shown} half", self._half_m(wire, spot), spot.shown,
                      "its cut", None)  # fmt: skip
            yield spot, self._fused(wire, spot, end_of(id, "from"))

    def _whole(self, wire: Conductor) -> Iterator[tuple[Spot, EndId]]:
        id, said = whole_wire(self.plan, wire), f"{wire.start.shown} to {wire.to.shown}"
        length = length_m(self.loom, wire)
        self._put(wire, id, said, length, wire.start.shown, wire.to.shown, None)
        yield wire.start, self._fused(wire, wire.start, end_of(id, "from"))
        yield wire.to, self._fused(wire, wire.to, end_of(id, "to"))

    def _fused(self, wire: Conductor, spot: Spot, end: EndId) -> EndId:
        """Put a wire's own fuse on, where it lies at this end; return what sits at the point."""
        if wire.fuse_a is None or fused_at(self.plan, wire) != spot:
            return end
        id = fuse_of(self.plan, wire)
        fuse = self.board.element(
            Element(id, "fuse", wire.fuse_a, f"{wire.fuse_a:g} A", self.name, id,
                    self._carries(wire), self.name)
        )  # fmt: skip
        self.board.join("element_lead", self.name, fuse.ends[1], end, closed_by=OWN_LOOM,
                        undone="with_part")  # fmt: skip
        self.behind[fuse.ends[0]] = end
        return fuse.ends[0]

    def _put(
        self, wire: Conductor, id: str, place: str, length: Metres | None, start: str, to: str,
        mate: str | None,
    ) -> None:  # fmt: skip
        self.board.wire(
            CircuitWire(id, self._carries(wire), place, self.name, place, wire.wire,
                        conductor_of(wire.wire), length, start, to, mate, piece=self.name,
                        cable=self.loom.id, loom=self.name)
        )  # fmt: skip

    def _carries(self, wire: Conductor) -> LinkClass:
        """The class of a wire: of one that is wanted that of its pair, else the car's own."""
        return "speaker_level" if wire in self.cut or wire in self.outside else "through"

    def _half_m(self, wire: Conductor, spot: Spot) -> Metres | None:
        whole, unit = length_m(self.loom, wire), self.plan.ends[0].name
        spots = (wire.start, wire.to)
        at = next(
            (place for point, place in self.places.items()
             if Spot(point.place, point.cavity) in spots),
            None,
        )  # fmt: skip
        if whole is None or at is None:
            return None
        return at if spot.place == unit else round(whole - at, 3)

    def _joined(self, spot: Spot, ends: list[EndId]) -> None:
        """What sits in a cavity, or meets at a splice of the loom's maker."""
        if spot.cavity:
            terminal = self.board.terminal(self._terminal(spot, ends))
            self.board.join("terminal", self.name, terminal, *ends, closed_by=OWN_HOUSING,
                            undone="with_part")  # fmt: skip
        elif spot.is_splice:
            self.board.join("splice", self.name, *ends, closed_by=OWN_LOOM, undone="with_part")

    def _terminal(self, spot: Spot, ends: list[EndId]) -> Terminal:
        met = {self.behind.get(end, end) for end in ends}
        wires = [w for w in self.board.wires.values() if {*w.ends} & met]
        carries: LinkClass = wires[0].carries if wires else "through"
        pins = {pin.cavity: pin.function for pin in self.plan.use.plug.pins}
        tapped = Point(spot.place, spot.cavity) in self.plan.taps
        if tapped and carries == "through":
            carries = FED_AS.get(pins[spot.cavity], "control")
        floating = self._floating(spot.cavity) if carries == "speaker_level" else False
        return Terminal(
            terminal_of(self.plan, spot), self.name, f"{spot.place}.{spot.cavity}", "passes",
            carries, floating=floating,
            limits_itself=tapped and pins.get(spot.cavity) in SELF_LIMITING,
            wire=wires[0].wire if wires else None, colour=wires[0].colour if wires else "",
        )  # fmt: skip

    def _floating(self, cavity: str) -> bool:
        return any(
            leg.plug is self.plan.use.plug and leg.pin.cavity == cavity
            for tap in self.work.selection.touched
            if tap.pair.topology != "common_ground"
            for leg in tap.pair.legs
        )

    def _plugged(self, pin: Pin) -> None:
        """The car's plug in the loom's one end, the loom's other end in the unit."""
        plug = self.plan.use.plug
        touched = [tap.pair for tap in self.work.selection.touched]
        leg = Leg(plug, pin)
        pair = next((p for p in touched if leg.name in {each.name for each in p.legs}), None)
        wanted = pin.cavity in self.plan.wanted
        cavity = plug_terminal(self.board, leg, pair, is_used=wanted)
        unit, car = (loom_cavity(self.plan, end, pin.cavity) for end in self.plan.ends)
        socket = socket_terminal(plug.unit, leg.name)
        pairs = (
            (f"socket of {plug_name(plug)}", socket, unit),
            (plug_name(plug), cavity, car),
        )
        for place, one, other in pairs:
            if any(other == each.id for each in self.board.units[self.name].terminals):
                self.board.join("plug_home", place, one, other, closed_by=OWN_HOUSING,
                                undone="unplug")  # fmt: skip

    def _passed_on(self) -> None:
        """One link for each way from a cavity of the car's end, or of the first there is."""
        unit, car = (end.name for end in self.plan.ends)
        whole = [w for w in conductors(self.loom) if w not in self.cut and w not in self.outside]
        for net in nets(whole, (car, unit)):
            first, *others = (spot for spot in net.terminals if spot.cavity)
            for other in others:
                self._link(first, other, net.between(first, other))

    def _link(self, first: Spot, last: Spot, wires: tuple[Conductor, ...]) -> None:
        path: list[str] = [terminal_of(self.plan, first)]
        here = first
        for wire in wires:
            id, names = whole_wire(self.plan, wire), ("from", "to")
            inner, outer = (end_of(id, each) for each in names[:: 1 if wire.start == here else -1])  # type: ignore[arg-type]
            path += [*lead_of(self.board, self.plan, wire, here, inner), id]
            here = wire.other(here)
            path += lead_of(self.board, self.plan, wire, here, outer)[:0:-1]
        path += [lead_of(self.board, self.plan, wire, here, outer)[0], terminal_of(self.plan, last)]
        path = [*self._beyond(first)[::-1], *path, *self._beyond(last)]
        what = f"{self._called(first)} through {self.name}: {self._said(first, last)}"
        self.board.link(Link(what, "through", what, tuple(path)))

    def _beyond(self, spot: Spot) -> tuple[str, ...]:
        """The joint and the contact that a cavity of an end is plugged into, where there is one."""
        own, plug = terminal_of(self.plan, spot), self.plan.use.plug
        unit, car = (end.name for end in self.plan.ends)
        cavity = f"{plug.id}.{spot.cavity}"
        other = {unit: socket_terminal(plug.unit, cavity), car: cavity}.get(spot.place, "")
        homes = [
            j for j in self.board.joints if j.kind == "plug_home" and {own, other} == {*j.joins}
        ]
        return tuple(each for joint in homes for each in (joint.id, other))

    def _called(self, spot: Spot) -> str:
        car = self.plan.ends[1].name
        return f"{self.plan.use.plug.id}.{spot.cavity}" if spot.place == car else spot.shown

    def _said(self, first: Spot, last: Spot) -> str:
        pins = {pin.cavity: pin for pin in self.plan.use.plug.pins}
        if last.place not in {end.name for end in self.plan.ends}:
            return f"to {last.shown}"
        return _said(pins.get(first.cavity))

    def close(self) -> None:
        """Every end that is joined nowhere, closed off by itself."""
        joined = {end for joint in self.board.joints for end in joint.joins}
        opened = {each.end for each in self.board.open_ends}
        for wire in [w for w in self.board.wires.values() if w.loom == self.name]:
            for end in wire.ends:
                if end not in joined | opened:
                    what = f"{wire.place} of {self.name} ({wire.colours})"
                    because = _CLOSED if wire.carries == "speaker_level" else _UNUSED_BRANCH
                    self.board.leave_open(OpenEnd(end, what, self.name, because, SLEEVE))


def _said(pin: Pin | None) -> str:
    if pin is None:
        return "nothing in the car's plug"
    return f"{channel_name(pin.channel)} {SINGULAR_NAMES[pin.function]}".strip()
