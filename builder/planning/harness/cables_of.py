"""The cables that are joined to a loom: how long, how marked, and what of them goes elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil
from typing import Final

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.piece_names import CABLE
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.cable_ends import CableEnds
from builder.planning.harness.marks import mark_places
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomCableRow, LoomJointRow
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.power.conductors import ohm_per_km
from builder.planning.views.cut_rows import material_of, pieces_of
from builder.planning.views.label_rows import label_ends, label_text

FAR_OFF_MM: Final = 50.0
"""How much jacket comes off the far end of a cable for the ring-out. Common practice, no source."""


def cable_rows(
    plan: LoomPlan, index: CircuitIndex, joints: Sequence[LoomJointRow], ends: CableEnds
) -> Iterator[LoomCableRow]:
    """Yield one row a cable or single wire that is joined in the loom, in the order of its joints;
    a wire of a branch's own is none."""
    pieces = pieces_of(index)
    for piece in dict.fromkeys(row.cable for row in joints if row.cable):
        mine = tuple(row for row in joints if row.cable == piece)
        number = piece.removeprefix(CABLE)
        jacketed = piece.startswith(CABLE)
        cores = [row.core_mm for row in mine]
        branch = ends.branch_of(piece)
        known = [each for each in cores if each is not None]
        yield LoomCableRow(
            cable=piece,
            material=material_of(pieces[piece]),
            length_m=pieces[piece][0].length_m,
            bands=int(number) if jacketed and number.isdigit() else 0,
            label=label_text(index, pieces[piece]),
            comes=_here(plan, index, pieces[piece]),
            branch=branch.name if branch else "",
            edge_mm=ends.edge_mm(piece) if jacketed else None,
            off_mm=max(known) if jacketed and len(known) == len(cores) else None,
            joints=tuple(row.number for row in mine),
            others=tuple(
                _elsewhere(index, each) for each in other_cores(plan, index) if each.piece == piece
            ),
        )


def cable_lines(work: SheetWork) -> Iterator[str]:
    """Yield how the cables of the list are cut, marked, and folded back; where there are any."""
    if any(row.bands for row in work.cables):
        yield from _cut_lines(work)
    near = shown(work.defaults.label_from_end_mm, 0)
    if any(not row.bands for row in work.cables):
        yield (
            "each single wire of the cable list: cut it to its length, and put its label on at "
            f"both ends, within {near} mm of its end"
        )
    if other_cores(work.plan, work.index):
        yield "fold each core back that the cable list names as joined to nothing here"


def _cut_lines(work: SheetWork) -> Iterator[str]:
    """A nick costs the roll, not the piece: its jacket comes off before the piece is cut."""
    house = work.defaults
    spare = (
        f", since {shown(house.cut_end_m)} m of its length are to spare there"
        if house.cut_end_m >= FAR_OFF_MM / 1000
        else ""
    )
    again = f"cut it off and begin again, once{spare}" if spare else "cut the cable anew"
    yield (
        "each cable of the cable list, from the end of the roll: take its jacket off by "
        '"Off here"; a nicked core: cut that end off and begin again. '
        f"{_more_nicks(work)}"
        "Measure its length from the tips of the cores, and cut it. "
        f"At the far end {FAR_OFF_MM:.0f} mm of jacket come off; a nick there: {again}"
    )
    near, at = shown(house.label_from_end_mm, 0), mark_places(work.cables)
    label, bands = (shown(each, 0) for each in (at.label_mm[0], at.bands_mm))
    yield (
        "mark each cable, its label and its bands of coloured tape, all of one colour: at the end "
        'with much jacket off, which comes to this loom and which its label calls as "Comes here" '
        f"has it, the label from {label} mm of the edge of the jacket on, the first band from "
        f"{bands} mm on; at the far end within {near} mm of the edge, and mid-way, the "
        "bands beside the label, away from the near end"
    )


def _more_nicks(work: SheetWork) -> str:
    """What the roll holds more is one such end; a second one takes the last piece's length."""
    if not any(roll_spare_m(work.cables, row.material) for row in work.cables):
        return ""
    return "The roll has what one such end takes; for a second get more cable first. "


def roll_spare_m(cables: Iterable[LoomCableRow], material: str) -> float:
    """Return what the roll holds more [m]: one end that is cut off for a nick, up to 100 mm."""
    off = [row.off_mm for row in cables if row.material == material and row.off_mm is not None]
    return ceil(max(off, default=0.0) / 100) / 10


def cable_ohm(wire: CircuitWire, defaults: HouseDefaults) -> float | None:
    """Return what a conductor takes from end to end [Ω]; None where nobody recorded enough."""
    if wire.size is None or wire.length_m is None:
        return None
    return wire.length_m * ohm_per_km(wire.size, defaults) / 1000


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
