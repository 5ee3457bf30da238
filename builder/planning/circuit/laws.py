"""Laws that every circuit obeys: what is joined, what drives, what is fused."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, CircuitWire, EndId, Link, Terminal
from builder.planning.circuit.nets import Nets, continuity
from builder.planning.circuit.terminal_names import (
    BATTERY_MINUS,
    BODY_AT_STRAP,
    first_of,
    ground_of,
    heard_by,
)
from builder.planning.power.conductors import fuse_ceiling_a
from builder.planning.words import LinkClass
from builder.units import Amperes

_SOUND_AND_SWITCHING: frozenset[LinkClass] = frozenset(
    {"speaker_level", "line", "amplified", "control"}
)
_FED: frozenset[LinkClass] = frozenset({"supply", "control"})


@dataclass(frozen=True, slots=True)
class Breach:
    """One law that is not kept, and where: the pieces concerned, and the volts or amperes."""

    pieces: tuple[str, ...]
    value: float | None = None
    limit: float | None = None


def _drives_a_leg(circuit: Circuit) -> list[Terminal]:
    return [
        each
        for each in circuit.terminals
        if each.role == "drives" and each.carries in _SOUND_AND_SWITCHING
    ]


def driven_nets(circuit: Circuit) -> Nets:
    """Return what a driven leg reaches: joints, conductors, fuses, and the pad in its own leg."""
    pads = {id for link in circuit.links if link.carries == "speaker_level" for id in link.path}
    return continuity(circuit, parts=lambda part: part.kind == "fuse" or part.id in pads)


def unjoined_terminals(circuit: Circuit) -> Iterator[Breach]:
    """Yield each terminal that is needed and that no link reaches."""
    reached = {piece for link in circuit.links for piece in link.path}
    for terminal in circuit.terminals:
        if terminal.needed and terminal.id not in reached:
            yield Breach((terminal.id,))


def nets_with_two_drivers(circuit: Circuit) -> Iterator[Breach]:
    """Yield each net of sound or switching that two outputs drive."""
    nets = driven_nets(circuit)
    by_net: dict[EndId, list[str]] = {}
    for terminal in _drives_a_leg(circuit):
        by_net.setdefault(nets.of(terminal.id), []).append(terminal.id)
    for drivers in by_net.values():
        if len(drivers) > 1:
            yield Breach(tuple(sorted(drivers)))


def legs_that_meet_ground(circuit: Circuit) -> Iterator[Breach]:
    """Yield each floating leg that is joined to a ground terminal."""
    nets = driven_nets(circuit)
    grounds = [each for each in circuit.terminals if each.carries == "ground"]
    grounded = {nets.of(each.id): each.id for each in grounds}
    for terminal in _drives_a_leg(circuit):
        if terminal.floating and nets.of(terminal.id) in grounded:
            yield Breach((terminal.id, grounded[nets.of(terminal.id)]))


def unfused_wires(circuit: Circuit, defaults: HouseDefaults) -> Iterator[Breach]:
    """Yield each supply or control wire that no fuse small enough stands before.

    The lead to the main fuse has none: how long it may be is a rule of its own. Wires behind an
    output that limits itself far below any wire need none.
    """
    index = CircuitIndex(circuit)
    for link in circuit.links:
        if link.carries in _FED and not _limited(index, link):
            yield from _unfused_on(index, link, defaults)


def _limited(index: CircuitIndex, link: Link) -> bool:
    """Whether what the link hangs on, terminal by terminal upwards, limits itself."""
    if index.terminals[link.begins].limits_itself:
        return True
    above = [each for each in index.circuit.links if each.finishes == link.begins]
    return any(_limited(index, each) for each in above if each.carries == link.carries)


def _unfused_on(index: CircuitIndex, link: Link, defaults: HouseDefaults) -> Iterator[Breach]:
    source = index.unit_of(link.begins)
    at_battery = source.kind == "battery"
    fuse_a = None if at_battery else _fuse_before(index, link)
    for piece in link.path:
        part = index.elements.get(piece)
        if part is not None and part.kind == "fuse":
            fuse_a = part.value if fuse_a is None else min(fuse_a, part.value)
        wire = index.wires.get(piece)
        if wire is None or wire.stays or wire.size is None:
            continue
        if fuse_a is None and at_battery and wire.from_place == source.id:
            continue
        yield from _judged(wire, fuse_a, defaults)


def _judged(wire: CircuitWire, fuse_a: Amperes | None, defaults: HouseDefaults) -> Iterator[Breach]:
    assert wire.size is not None
    ceiling = fuse_ceiling_a(wire.size, defaults)
    if fuse_a is None or fuse_a > ceiling:
        yield Breach((wire.id,), fuse_a, ceiling)


def _fuse_before(index: CircuitIndex, link: Link) -> Amperes | None:
    """The fuse of the link that feeds the terminal where this one begins, or None."""
    for other in index.circuit.links:
        if other is not link and other.finishes == link.begins:
            fuses = [part.value for part in index.elements_of(other) if part.kind == "fuse"]
            return min(fuses) if fuses else _fuse_before(index, other)
    return None


def unfed_channels(circuit: Circuit) -> Iterator[Breach]:
    """Yield each amplifier output in use whose channel no line input feeds."""
    fed = {link.finishes for link in circuit.links if link.carries == "line"}
    for unit in circuit.units:
        if unit.kind != "amplifier":
            continue
        inside = {each.id for each in unit.terminals}
        for terminal in unit.terminals:
            channel = terminal.name.removeprefix("out ").split(" ")[0]
            if terminal.name != f"out {channel} +":
                continue
            number = first_of(channel)
            brought = heard_by(unit.id, number)
            own = f"{unit.id} in {number}"
            ends = {brought} if brought in inside else {own, f"{own} left", f"{own} right"}
            if not fed & ends:
                yield Breach((terminal.id,))


def shield_loops(circuit: Circuit) -> Iterator[Breach]:
    """Yield each line lead whose two devices are grounded at places that meet in the body alone.

    What the ground currents of the car lose between the two places then lies on its shield. A
    converter without a ground of its own, with windings, closes no loop.
    """
    index = CircuitIndex(circuit)
    seen: set[tuple[str, str]] = set()
    for link in circuit.links:
        ends = index.unit_of(link.begins).id, index.unit_of(link.finishes).id
        if link.carries != "line" or ends[0] == ends[1] or ends in seen:
            continue
        seen.add(ends)
        if ground_of(ends[0]) not in index.terminals:
            continue
        ways = [set(_grounded_by(circuit, each)) for each in ends]
        met = set.intersection(*ways)
        straight = BATTERY_MINUS in met and not any(BODY_AT_STRAP in way for way in ways)
        if not straight and not met - {BODY_AT_STRAP, BATTERY_MINUS}:
            yield Breach(ends)


def _grounded_by(circuit: Circuit, unit: str) -> Iterator[EndId]:
    """The terminals that a device's ground leads to, its own first."""
    onward = {link.begins: link.finishes for link in circuit.links if link.carries == "ground"}
    at: EndId | None = ground_of(unit)
    while at is not None:
        yield at
        at = onward.get(at)
