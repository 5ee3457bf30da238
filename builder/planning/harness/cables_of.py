"""The cables that are joined to a loom: how long, how marked, and what of them goes elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import ceil
from typing import Final

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.piece_names import CABLE
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.cable_ends import CableEnds
from builder.planning.harness.marks import least_off_mm
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomCableRow, LoomJointRow
from builder.planning.views.cut_rows import material_of, pieces_of
from builder.planning.views.label_rows import label_ends, label_text

FAR_OFF_MM: Final = 50.0
"""How much jacket comes off the far end of a cable for the ring-out. Common practice, no source."""


def cable_rows(
    plan: LoomPlan, index: CircuitIndex, joints: Sequence[LoomJointRow], ends: CableEnds
) -> Iterator[LoomCableRow]:
    """Yield one row a cable or single wire that is joined in the loom, in the order of its joints;
    a wire of a branch's own is none."""
    rows = _rows(plan, index, joints, ends)
    yield from (_folded(row) if row.others else row for row in rows)


def _folded(row: LoomCableRow) -> LoomCableRow:
    """A core that is folded back is as long as the jacket that comes off: so much that tape holds
    it, though those that are joined are shorter."""
    if row.off_mm is None:
        return row
    return replace(row, off_mm=max(row.off_mm, least_off_mm()))


def _rows(
    plan: LoomPlan, index: CircuitIndex, joints: Sequence[LoomJointRow], ends: CableEnds
) -> Iterator[LoomCableRow]:
    pieces = pieces_of(index)
    for piece in dict.fromkeys(row.cable for row in joints if row.cable):
        mine = tuple(row for row in joints if row.cable == piece)
        number = piece.removeprefix(CABLE)
        jacketed = piece.startswith(CABLE)
        cores = [row.core_mm for row in mine]
        branch = ends.branch_of(piece)
        yield LoomCableRow(
            cable=piece,
            material=material_of(pieces[piece]),
            length_m=pieces[piece][0].length_m,
            bands=int(number) if jacketed and number.isdigit() else 0,
            label=label_text(index, pieces[piece]),
            comes=_here(plan, index, pieces[piece]),
            branch=branch.name if branch else "",
            edge_mm=ends.edge_mm(piece) if jacketed else None,
            off_mm=_longest(cores) if jacketed else None,
            joints=tuple(row.number for row in mine),
            others=tuple(
                _elsewhere(index, each) for each in other_cores(plan, index) if each.piece == piece
            ),
        )


def _longest(cores_mm: Sequence[float | None]) -> float | None:
    """The longest of some cores; None while one has to be measured."""
    known = [each for each in cores_mm if each is not None]
    return max(known) if known and len(known) == len(cores_mm) else None


def roll_spare_m(cables: Iterable[LoomCableRow], material: str, house: HouseDefaults) -> float:
    """Return what the roll holds more [m], in whole decimetres: one end that is cut off for a nick,
    and what each piece may be longer."""
    rows = [row for row in cables if row.material == material]
    off = [row.off_mm for row in rows if row.off_mm is not None]
    if not off:
        return 0.0
    return ceil((max(off) + house.bench_longer_mm + house.bench_cable_mm * len(rows)) / 100) / 10


def far_spare_m(house: HouseDefaults) -> float:
    """Return how much of a far end may be cut off, once, where it is nicked [m]: the end that its
    length was reckoned with, where that holds what is stripped there; else 0.

    >>> far_spare_m(HouseDefaults())
    0.3
    """
    return house.cut_end_m if house.cut_end_m >= FAR_OFF_MM / 1000 else 0.0


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


def _here(plan: LoomPlan, index: CircuitIndex, piece: Sequence[CircuitWire]) -> str:
    """The end of a cable that comes to the loom: some begin there and some end."""
    ends = {end for j in index.circuit.joints if j.place == plan.use.name for end in j.joins}
    wire = next(each for each in piece if ends & {*each.ends})
    return label_ends(index, piece)[wire.ends[1] in ends]


def _elsewhere(index: CircuitIndex, wire: CircuitWire) -> str:
    """A core that is not joined here, and what the car needs it for."""
    link = index.link_of(wire)
    name = f"{wire.place}, {wire.colours}"
    if link is None:
        return f"{name}: a spare"
    return f"{name}: {link.purpose}, in the car, from {link.begins} to {link.finishes}"
