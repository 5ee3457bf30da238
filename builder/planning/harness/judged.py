"""What speaks against a loom at a plug: mates, cavities, wires changed over, thin wires, no use."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.figures import shown
from builder.model.housing import Housing
from builder.model.parts.loom_wires import Point
from builder.model.pin import Pin
from builder.model.words import Channel
from builder.planning.cables.speaker_leads import lead_loss_db
from builder.planning.harness.lost import lost_with
from builder.planning.harness.planned import LoomPlan, carries_of
from builder.planning.looms.conductors import Conductor, length_m
from builder.planning.looms.mates import mates_said, mismatches
from builder.planning.pack_details import PackFlag
from builder.planning.power.conductors import conductor_of, fuse_ceiling_a, hot_ohm_per_km
from builder.planning.words import LoomFlagKind
from builder.planning.work_pack import JobParts
from builder.units import Decibels


def loom_flags(parts: JobParts, plans: Mapping[str, LoomPlan]) -> tuple[PackFlag, ...]:
    """Return everything that is wrong with the looms of a job, loom by loom."""
    return tuple(flag for plan in plans.values() for flag in _Judge(parts, plan).flags())


@dataclass(frozen=True, slots=True)
class _Judge:
    """One loom held against the car's plug and what the job wants of it."""

    parts: JobParts
    plan: LoomPlan

    def flags(self) -> Iterator[PackFlag]:
        yield from self._fit()
        if self.plan.use.ends is None:
            return
        for pin in self.plan.use.plug.pins:
            yield from self._cavity(pin)
        yield from self._undescribed()
        if not self.plan.wanted:
            says = "nothing of it is cut or joined: the plug does as well without it"
            yield self._flag("loom_idle", says)

    def _flag(
        self, kind: LoomFlagKind, says: str, *, stops: bool = False, value: float | None = None,
        limit: float | None = None, unit: str = "",
    ) -> PackFlag:  # fmt: skip
        return PackFlag(kind, self.plan.use.name, says, value, limit, unit, stops)

    def _fit(self) -> Iterator[PackFlag]:
        use, shells = self.plan.use, self.parts.shelf.housings
        if use.ends is None:
            lacks = "end that takes the car's plug" if use.car_end is None else "end for it"
            says = (
                f"plug {use.plug.id} belongs to the {use.plug.unit}; {use.loom.id} has no {lacks}"
            )
            yield self._flag("loom_unfit", says, stops=True)
            return
        unit, takes = (shells.get(end.housing) for end in use.ends)
        plug = shells.get(use.plug.housing)
        if plug is None or unit is None or takes is None:
            return  # a housing that is not in the book is a finding of the record that names it
        yield from self._mates(f"its {use.ends[1].name}", takes, plug)
        if unit.id != plug.id:
            yield from self._mates(f"what its {use.ends[0].name} goes into", takes, unit)

    def _mates(self, what: str, takes: Housing, plug: Housing) -> Iterator[PackFlag]:
        said = mates_said(takes, plug)
        pair = f'{what}, "{takes.id}", and plug {self.plan.use.plug.id}, "{plug.id}"'
        if said == "no":
            yield self._flag("loom_unfit", f"{pair}: their records name other mates", stops=True)
        elif said == "not recorded":
            yield self._flag("loom_unfit", f"{pair}: nobody wrote down whether they mate")
        for why in mismatches(takes, plug) if takes is not plug else ():
            yield self._flag("loom_unfit", f"{pair} cannot mate: {why}", stops=True)

    def _cavity(self, pin: Pin) -> Iterator[PackFlag]:
        if pin.function == "not_used":
            return
        wanted = self.plan.wanted.get(pin.cavity)
        cut = wanted is not None and wanted.unit_half is not None
        crossed = self._crossed(pin)
        if crossed:
            yield self._flag("loom_crossed", crossed, stops=not self._rejoined(pin))
        elif not (self._both_halves(pin) if cut else self.plan.use.passes(pin.cavity)):
            yield self._lost(pin, wanted=wanted is not None)
        else:
            yield from self._thin(pin)
        if cut:
            yield from self._shared(pin)

    def _both_halves(self, pin: Pin) -> bool:
        """Both sides of a wire that is wanted sit in the loom."""
        return all(self.plan.use.net_at(end, pin.cavity) for end in self.plan.ends)

    def _crossed(self, pin: Pin) -> str:
        """Where a cavity of the car's end comes out when it is not at its own."""
        unit, car = self.plan.ends
        net = self.plan.use.net_at(car, pin.cavity)
        others = net.cavities(unit.name) if net else ()
        if not others or pin.cavity in others:
            return ""
        return f"{car.name}.{pin.cavity} comes out at {unit.name}.{others[0]}"

    def _rejoined(self, pin: Pin) -> bool:
        """Whether all cavities of a wire that is changed over are cut and joined by cavity."""
        unit, car = self.plan.ends
        net = self.plan.use.net_at(car, pin.cavity)
        ends = (*net.cavities(unit.name), *net.cavities(car.name)) if net else ()
        wanted = [self.plan.wanted.get(cavity) for cavity in ends]
        return all(each is not None and each.unit_half is not None for each in wanted)

    def _lost(self, pin: Pin, *, wanted: bool) -> PackFlag:
        carries = carries_of(pin.function)
        stops = wanted or carries in ("supply", "ground")
        says = f"{self.plan.use.plug.id}.{pin.cavity} does not get through: {lost_with(pin)}"
        return self._flag("loom_cavity_dead", says, stops=stops)

    def _shared(self, pin: Pin) -> Iterator[PackFlag]:
        for end in self.plan.ends:
            if self.plan.use.net_at(end, pin.cavity) and self.plan.single(end, pin.cavity) is None:
                says = f"several wires sit in {end.name}.{pin.cavity}: which is cut?"
                yield self._flag("loom_cavity_dead", says, stops=True)

    def _undescribed(self) -> Iterator[PackFlag]:
        plug = self.plan.use.plug
        housing = self.parts.shelf.housings.get(plug.housing)
        known = {pin.cavity for pin in plug.pins} | {*plug.empty}
        if housing is None:
            return
        for cavity in housing.cavities:
            if cavity not in known | {*housing.blocked} and not self.plan.use.passes(cavity):
                says = f"{plug.id}.{cavity} does not get through, and nobody recorded what is in it"
                yield self._flag("loom_undescribed", says)

    def _thin(self, pin: Pin) -> Iterator[PackFlag]:
        carries = carries_of(pin.function)
        wires = self._wires_of(pin)
        if carries in ("supply", "ground"):
            fuse = self.plan.uses[Point(self.plan.ends[1].name, pin.cavity)].fuse_a
            for wire in wires:
                yield from self._supply_thin(pin, wire, fuse)
        elif carries == "speaker" and wires:
            yield from self._speaker_thin(pin, wires)

    def _wires_of(self, pin: Pin) -> tuple[Conductor, ...]:
        """The wires between the two ends of a cavity, or its two halves."""
        unit, car = self.plan.ends
        net = self.plan.use.net_at(car, pin.cavity)
        other = self.plan.use.net_at(unit, pin.cavity)
        nets = [each for each in (net, other) if each is not None]
        found = dict.fromkeys(wire for each in nets for wire in each.conductors)
        ends = {unit.name, car.name}
        branches = {each.name for each in self.plan.use.loom.branches}
        if net is other:  # what only a branch hangs on is no way of the car's
            return tuple(w for w in found if not {w.start.place, w.to.place} & branches)
        return tuple(w for w in found if {w.start.place, w.to.place} & ends)

    def _supply_thin(self, pin: Pin, wire: Conductor, fuse: float | None) -> Iterator[PackFlag]:
        metal, where = conductor_of(wire.wire), f"{self.plan.use.plug.id}.{pin.cavity}"
        if metal is None:
            says = f"the wire of {where} has no size: nobody can tell what it carries"
            yield self._flag("loom_no_size", says, stops=True)
            return
        ceiling = fuse_ceiling_a(metal, self.parts.shelf.defaults)
        if fuse is not None and fuse > ceiling:
            says = (
                f"{where} is fed through {shown(fuse, beside=(ceiling,))} A, and {metal.words} of "
                f"the loom stands behind {shown(ceiling, 1, beside=(fuse,))} A at most"
            )
            yield self._flag("loom_thin", says, stops=True, value=fuse, limit=ceiling, unit="A")

    def _speaker_thin(self, pin: Pin, wires: tuple[Conductor, ...]) -> Iterator[PackFlag]:
        loss = self._loss_db(pin.channel, wires)
        limit = self.parts.shelf.defaults.lead_loss_max_db
        if loss is not None and -loss > limit:
            says = (
                f"{self.plan.use.plug.id}.{pin.cavity}: both legs through the loom cost "
                f"{shown(-loss, 2, beside=(limit,))} dB, {shown(limit, 2)} dB is the house's most"
            )
            yield self._flag("loom_thin", says, value=-loss, limit=limit, unit="dB")

    def _loss_db(self, channel: Channel | None, wires: tuple[Conductor, ...]) -> Decibels | None:
        carried = self.parts.vehicle.channel(channel) if channel else None
        ohm = carried.speaker_ohm if carried else None
        parts = [self._ohm(wire) for wire in wires]
        if ohm is None or None in parts:
            return None
        return lead_loss_db(ohm, 2 * sum(each for each in parts if each is not None))

    def _ohm(self, wire: Conductor) -> float | None:
        metal, length = conductor_of(wire.wire), length_m(self.plan.use.loom, wire)
        if metal is None or length is None:
            return None
        return length * hot_ohm_per_km(metal, self.parts.shelf.defaults) / 1000
