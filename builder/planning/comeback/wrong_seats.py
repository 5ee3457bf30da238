"""Faults of joining that a car cannot get later: a wire or a pair at another cavity of its plug.

A turn-on at another cavity is in `pin_faults`: that one still works at some times of the day, so
that a car comes back with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import permutations

from builder.model.words import SUPPLIES, Function
from builder.planning.circuit.model import Circuit, CircuitWire, EndId, Joint, Link, Terminal
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.handed_over import HandedOver, live_when
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import JointKind, LinkClass, UnitKind

_TAKEN: tuple[LinkClass, ...] = ("speaker_level", "amplified", "supply", "ground")
_BY_HAND: tuple[JointKind, ...] = ("tap", "splice")
_HAS_CAVITIES: tuple[UnitKind, ...] = ("plug", "loom")


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a wire of the job meets a cavity of a plug: the cavity's end there, and its link.

    `side` says which half of a wire that was cut; a cavity itself has none.
    """

    link: Link
    joint: Joint
    end: EndId
    plug: str
    cavity: str
    side: str

    @property
    def said(self) -> str:
        """The cavity in words."""
        return f"{self.plug}.{self.cavity}"


def wrong_seats(job: HandedOver) -> Iterator[Fault]:
    """Yield each wire at each other cavity of its plug, then each pair at another pair's."""
    seats = _Seats(job)
    yield from seats.wires()
    yield from seats.pairs()


class _Seats:
    """The joints of a job at cavities of the car's plugs and of looms."""

    def __init__(self, job: HandedOver) -> None:
        self.job, self.index = job, job.index

    @cached_property
    def each(self) -> tuple[Seat, ...]:
        found = (
            seat
            for link in self.job.circuit.links
            if link.carries in _TAKEN
            for joint in self.index.joints_on(link)
            if joint.kind in _BY_HAND and made_by_us(self.index, joint)
            for seat in self._at(link, joint)
        )
        return tuple({seat.joint.id: seat for seat in found}.values())

    def _at(self, link: Link, joint: Joint) -> Iterator[Seat]:
        for end in joint.joins:
            name = self._cavity_of(end)
            plug, _, rest = name.rpartition(".")
            if plug:
                cavity, _, side = rest.partition(" ")
                yield Seat(link, joint, end, plug, cavity, side)

    def _cavity_of(self, end: EndId) -> str:
        """The cavity that an end is, or the wire of it that the end belongs to; else nothing."""
        owner = self.index.owners.get(end)
        if owner is None:
            kind = self.index.unit_of(end).kind if end in self.index.terminals else "body"
            return end if kind in _HAS_CAVITIES else ""
        of_car = isinstance(owner, CircuitWire) and (owner.stays or owner.loom)
        return owner.id if of_car else ""

    def wires(self) -> Iterator[Fault]:
        for seat in self.each:
            for cavity, end in self._others(seat):
                yield self._wrong(seat, cavity, end)

    def _others(self, seat: Seat) -> Iterator[tuple[str, EndId]]:
        """The other cavities that a hand may take: those that are used, of the same side."""
        if seat.side:  # only a wire that was cut has two halves
            for other in self.each:
                if (other.plug, other.side) == (seat.plug, seat.side) and other.end != seat.end:
                    yield other.said, other.end
            return
        for cavity in self._used(seat.plug):
            if cavity != seat.cavity:
                end = f"{seat.plug}.{cavity}"
                yield end, end

    def _used(self, plug: str) -> Iterator[str]:
        of_car = self.job.parts.vehicle.plug(plug)
        if of_car is not None:
            yield from (pin.cavity for pin in of_car.pins)
            return
        ends = (x.id for x in self.job.circuit.terminals if x.id.startswith(f"{plug}."))
        yield from (end.rpartition(".")[2] for end in ends)

    def _wrong(self, seat: Seat, cavity: str, end: EndId) -> Fault:
        circuit, live = self.job.circuit, {}
        if end not in self.index.terminals and end not in self.index.owners:
            end = f"{cavity} by mistake"
            function = self.job.function_at(cavity)
            circuit = _with_terminal(circuit, seat, self._terminal(seat, end, function))
            live = {end: live_when(function, self.job.house)}
        return self._fault(seat, cavity, _moved(circuit, {seat: end}), live)

    def _terminal(self, seat: Seat, end: EndId, function: Function) -> Terminal:
        """A cavity of the car that the job has nothing to do with: what it brings."""
        brings: LinkClass = (
            "supply" if function in SUPPLIES else "ground" if function == "ground" else "through"
        )
        return Terminal(end, self._unit_of(seat), end, "drives", brings)

    def _unit_of(self, seat: Seat) -> str:
        return self.index.unit_of(seat.end).id

    def _fault(
        self, seat: Seat, cavity: str, circuit: Circuit, live: Mapping[EndId, frozenset[str]]
    ) -> Fault:
        return Fault(
            f"wrong cavity {cavity} for {seat.said} {seat.side} {seat.link.id}".replace("  ", " "),
            "wrong_cavity", seat.joint.id,
            f"{seat.link.purpose} is joined to {cavity}, not to {seat.said}",
            f"join {seat.link.purpose} to {seat.said}, and close off {cavity}",
            seat.joint.place, self.job.house.comeback_changed_over, circuit, live=live,  # type: ignore[arg-type]
        )  # fmt: skip

    def pairs(self) -> Iterator[Fault]:
        """Both legs at another pair's cavities, each at its own sign."""
        by_link = {seat.link.id: seat for seat in self.each}
        pairs = [
            (seat, by_link[seat.link.mate])
            for seat in self.each
            if seat.link.mate in by_link and _is_plus(seat.link)
        ]
        for mine, theirs in permutations(pairs, 2):
            beside = (mine[0].plug, mine[0].side) == (theirs[0].plug, theirs[0].side)
            if beside and mine[0].end != theirs[0].end:
                yield self._wrong_pair(mine, theirs)

    def _wrong_pair(self, mine: tuple[Seat, Seat], theirs: tuple[Seat, Seat]) -> Fault:
        ends = {seat: other.end for seat, other in zip(mine, theirs, strict=True)}
        cavities = " and ".join(other.said for other in theirs)
        circuit = _moved(self.job.circuit, ends)
        fault = self._fault(mine[0], cavities, circuit, {})
        right = " and ".join(seat.said for seat in mine)
        said = mine[0].link.purpose.removesuffix(" +")
        return replace(
            fault,
            what=f"{said} is joined to {cavities}, both legs, not to {right}",
            remedy=f"join {said} to {right}, and close off {cavities}",
        )


def _is_plus(link: Link) -> bool:
    return link.begins.endswith("+") or link.finishes.endswith("+")


def _with_terminal(circuit: Circuit, seat: Seat, more: Terminal) -> Circuit:
    return replace(
        circuit,
        units=tuple(
            replace(unit, terminals=(*unit.terminals, more)) if unit.id == more.unit else unit
            for unit in circuit.units
        ),
    )


def _moved(circuit: Circuit, ends: Mapping[Seat, EndId]) -> Circuit:
    """A circuit in which some seats are at other ends."""
    at = {seat.joint.id: (seat.end, instead) for seat, instead in ends.items()}

    def moved(joint: Joint) -> Joint:
        was, instead = at[joint.id]
        joins = tuple(instead if end == was else end for end in joint.joins)
        return replace(joint, joins=joins)

    joints = (moved(joint) if joint.id in at else joint for joint in circuit.joints)
    return replace(circuit, joints=tuple(joints))
