"""The bench sheet of each loom of a job, a view of its circuit."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.house_defaults import HouseDefaults
from builder.model.names import LEG_SIGNS, SINGULAR_NAMES, channel_name
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
from builder.planning.circuit.model import CircuitWire, Element, EndId, colours_of, end_of
from builder.planning.circuit.terminal_names import loom_terminal, plug_name, source_name
from builder.planning.harness.bench_needs import needs_lines
from builder.planning.harness.bench_words import order_lines
from builder.planning.harness.cut_places import cut_places
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.ring_rows import bundle_of, ring_rows
from builder.planning.harness.rows import CLOSED_OFF, LoomDoing, LoomSheet, LoomWireRow
from builder.planning.looms.conductors import Conductor, conductors, length_m
from builder.planning.power.conductors import conductor_of
from builder.planning.views.names import end_words


def bench_sheets(
    plans: Mapping[str, LoomPlan], index: CircuitIndex, defaults: HouseDefaults
) -> tuple[LoomSheet, ...]:
    """Return the bench sheet of every loom, in the order of the job."""
    return tuple(_sheet(plan, index, defaults) for plan in plans.values())


def _sheet(plan: LoomPlan, index: CircuitIndex, defaults: HouseDefaults) -> LoomSheet:
    loom, plug = plan.use.loom, plan.use.plug
    wires = sorted(conductors(loom), key=lambda wire: _by_cavity(plan, wire))
    rows = tuple(_Row(plan, index, wire).row() for wire in wires)
    ringing, bundle = ring_rows(plan, index, defaults), bundle_of(plan, index)
    return LoomSheet(
        loom=plan.use.name,
        record=loom.id,
        title=loom.name,
        made=loom.made,
        between=f"{plug_name(plug)} and the {source_name(plug.unit)}",
        length_m=loom.length_m,
        wires=rows,
        needs=tuple(needs_lines(plan, rows, index, bundle)),
        order=tuple(order_lines(plan, rows, index, ringing, bundle)),
        ring_out=ringing,
        bundle=bundle,
    )


def _by_cavity(plan: LoomPlan, wire: Conductor) -> tuple[tuple[int, str], int]:
    """The cavity in the car's plug, then the unit's side first; a wire of none comes last."""
    places = [end.name for end in plan.ends]
    spots = [spot for spot in (wire.start, wire.to) if spot.place in places]
    if not spots:
        return (1000, ""), 0
    return spots[0].by_number, min(places.index(spot.place) for spot in spots)


class _Row:
    """One wire on its way to its row."""

    def __init__(self, plan: LoomPlan, index: CircuitIndex, wire: Conductor) -> None:
        self.plan, self.index, self.wire = plan, index, wire
        self.spots = (wire.start, wire.to)
        self.cut = wire in cut_wires(plan)

    def row(self) -> LoomWireRow:
        metal, pin = conductor_of(self.wire.wire), self._pin()
        unit, car = (end.name for end in self.plan.ends)
        return LoomWireRow(
            wire=f"{self.wire.start.shown} to {self.wire.to.shown}",
            carries=pin_words(pin)
            if self._at_end()
            else f"{self.wire.carries or 'branch'}, no cavity",
            doing=self._doing(),
            car_colour=colours_of(pin.wire) if pin and pin.wire else "none",
            loom_colour=colours_of(self.wire.wire) if self.wire.wire else "not recorded",
            size=metal.words if metal else "not recorded",
            length_m=length_m(self.plan.use.loom, self.wire),
            joint_mm=self._joint_mm(),
            unit_side=self._side(unit),
            car_side=self._side(car),
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

    def _joint_mm(self) -> float | None:
        points = {Point(spot.place, spot.cavity) for spot in self.spots}
        found = (at for point, at in cut_places(self.plan).items() if point in points)
        at = next(found, None)
        return None if at is None else round(1000 * at)

    def _side(self, end: str) -> str:
        """What is joined to the side of an end; nothing where the wire only goes through."""
        spot = next((each for each in self.spots if each.place == end), None)
        if spot is None:
            return ""
        if self.cut:
            return self._joined_to(end_of(half_wire(self.plan, spot), "to"))
        if self.wire in brought_out(self.plan):
            own = next(each for each in self.plan.ends if each.name == end)
            return self._joined_to(free_end(self.plan, own, spot.cavity))
        if Point(*spot[:2]) in self.plan.taps:
            return self._joined_to(loom_terminal(self.plan.use.name, spot.place, spot.cavity))
        if any(each.of for each in self.spots):
            return CLOSED_OFF
        return ""

    def _joined_to(self, end: EndId) -> str:
        own = {whole_wire(self.plan, self.wire), *(half_wire(self.plan, s) for s in self.spots)}
        found = []
        for joint in self.index.joints_of.get(end, []):
            if joint.kind not in ("splice", "tap"):
                continue
            for other in joint.joins:
                owner = self.index.owners.get(other)
                if other != end and (owner is None or owner.id not in own):
                    found.append(end_words(self.index, other) + self._behind(other))
        return " and ".join(found) or CLOSED_OFF

    def _behind(self, end: EndId) -> str:
        """Where it leads on: through a fuse, or to the terminal at the other end of a cable."""
        part = self.index.owners.get(end)
        if not isinstance(part, Element):
            return self._onward(end)
        far = next(each for each in part.ends if each != end)
        met = [e for joint in self.index.joints_of.get(far, []) for e in joint.joins if e != far]
        wires = [e for e in met if e in self.index.owners]
        return "".join(f", then {end_words(self.index, e)}{self._onward(e)}" for e in wires)

    def _onward(self, end: EndId) -> str:
        """Where a cable leads: the terminal at its other end."""
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
