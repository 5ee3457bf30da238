"""The cables that are joined to a loom: how long, how marked, and what of them goes elsewhere."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.planned import LoomPlan


def cable_lines(plan: LoomPlan, index: CircuitIndex) -> Iterator[str]:
    """Yield one line a cable: cut and labelled."""
    mine = joined_wires(plan, index)
    for piece in dict.fromkeys(wire.piece for wire in mine):
        here = [wire for wire in mine if wire.piece == piece]
        first = next(wire for wire in index.circuit.wires if wire.piece == piece)
        yield _cut(first, _here(plan, index, here))


def core_lines(plan: LoomPlan, index: CircuitIndex) -> Iterator[str]:
    """Yield one line for each conductor of the cables that is not of this loom."""
    yield from (_elsewhere(index, wire) for wire in other_cores(plan, index))


def joined_wires(plan: LoomPlan, index: CircuitIndex) -> list[CircuitWire]:
    """Return the conductors that are joined in a loom, in the order of its joints."""
    found: dict[str, CircuitWire] = {}
    for joint in index.circuit.joints:
        if joint.place == plan.use.name and joint.kind in ("splice", "tap", "element_lead"):
            for end in joint.joins:
                owner = index.owners.get(end)
                if isinstance(owner, CircuitWire) and owner.loom != plan.use.name:
                    found[owner.id] = owner
    return list(found.values())


def other_cores(plan: LoomPlan, index: CircuitIndex) -> list[CircuitWire]:
    """Return the conductors of those cables that are not joined in the loom."""
    mine = joined_wires(plan, index)
    pieces = {wire.piece for wire in mine}
    return [wire for wire in index.circuit.wires if wire.piece in pieces and wire not in mine]


def _cut(wire: CircuitWire, here: str) -> str:
    long = "as measured" if wire.length_m is None else f"{shown(wire.length_m, 1)} m"
    material = wire.cable or (wire.size.words if wire.size else "wire")
    number = wire.piece.removeprefix("jacket ")
    many = f"{number} band{'' if number == '1' else 's'}"
    bands = f"; put {many} of coloured tape on at both ends" if number.isdigit() else ""
    return (
        f'{wire.piece}: cut {long} of {material}{bands}; label both ends "{wire.piece}: from '
        f'{wire.from_place}, to {wire.to_place}". Its {here} end comes to this loom'
    )


def _here(plan: LoomPlan, index: CircuitIndex, mine: list[CircuitWire]) -> str:
    """The end of a cable that comes to the loom: some begin there and some end."""
    wire = mine[0]
    ends = {end for j in index.circuit.joints if j.place == plan.use.name for end in j.joins}
    return wire.to_place if wire.ends[1] in ends else wire.from_place


def _elsewhere(index: CircuitIndex, wire: CircuitWire) -> str:
    link = index.link_of(wire)
    name = f"{wire.lies_in} {wire.place}, {wire.colours}"
    if link is None:
        return (
            f"{name}: spare. At the loom's end close it off by itself under a sleeve and lay it "
            "back "
            "along its jacket; at its far end it is bared for the ring-out and closed off after it"
        )
    return (
        f"{name}: not of this loom. Keep its whole length; at the loom's end close it off by "
        "itself "
        "under a sleeve and lay it back along its jacket until the car; at its far end it is bared "
        f"for the ring-out and closed off after it. It is for: {link.purpose}, from "
        f"{link.begins} to "
        f"{link.finishes}"
    )
