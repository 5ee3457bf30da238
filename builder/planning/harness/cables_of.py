"""The cables that are joined to a loom: how long, how marked, and what of them goes elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.cable_ends import JACKET, CableEnds
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomCableRow, LoomJointRow
from builder.planning.power.conductors import ohm_per_km
from builder.planning.views.cut_rows import material_of, pieces_of
from builder.planning.views.label_rows import label_text

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
        number = piece.removeprefix(JACKET)
        jacketed = piece.startswith(JACKET)
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
        )


def cable_lines(cables: Sequence[LoomCableRow], defaults: HouseDefaults) -> Iterator[str]:
    """Yield one line a cable: cut, its jacket off, marked, labelled."""
    if any(row.bands for row in cables):
        yield (
            '"jacket 1" is the name of a whole cable; its own jacket is its outer skin. Score that '
            "round with the jacket knife, not through, bend it till it parts, and pull it off; a "
            "core with a nick is no core: cut the end off and begin again"
        )
    yield from (_cut(row, defaults) for row in cables)


def core_lines(plan: LoomPlan, index: CircuitIndex, defaults: HouseDefaults) -> Iterator[str]:
    """Yield one line for each conductor of the cables that is not joined here."""
    yield from (_elsewhere(index, wire, defaults) for wire in other_cores(plan, index))


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


def _cut(row: LoomCableRow, defaults: HouseDefaults) -> str:
    long = "as measured" if row.length_m is None else f"{shown(row.length_m, 1)} m"
    many = f"{row.bands} band{'' if row.bands == 1 else 's'} of coloured tape"
    marks = (
        f'put {many} and the label "{row.label}"' if row.bands else f'put the label "{row.label}"'
    )
    near = shown(defaults.label_from_end_mm, 0)
    if not row.bands:
        return (
            f"{row.cable}: cut {long} of {row.material}; {marks} at both ends, {near} mm from its "
            f'end. The end that the label calls "{row.comes}" comes to this loom'
        )
    much = f"{shown(row.off_mm, 0)} mm" if row.off_mm is not None else "as much as its cores need"
    return (
        f'{row.cable}: cut {long} of {row.material}. The end that its label calls "{row.comes}" '
        f"comes to this loom: take {much} of jacket off there, and no core with it; at the far end "
        f"{FAR_OFF_MM:.0f} mm. {marks[0].upper()}{marks[1:]} at both ends, {near} mm from where "
        "the jacket now ends, and mid-way"
    )


def _here(plan: LoomPlan, index: CircuitIndex, piece: Sequence[CircuitWire]) -> str:
    """The end of a cable that comes to the loom: some begin there and some end."""
    ends = {end for j in index.circuit.joints if j.place == plan.use.name for end in j.joins}
    wire = next(each for each in piece if ends & {*each.ends})
    return wire.to_place if wire.ends[1] in ends else wire.from_place


def _elsewhere(index: CircuitIndex, wire: CircuitWire, defaults: HouseDefaults) -> str:
    link = index.link_of(wire)
    name = f"{wire.lies_in} {wire.place}, {wire.colours}"
    here = (
        "At the loom's end keep all of it that the jacket leaves bare, close it off by itself "
        "under a sleeve, fold it back along its jacket, and tape it there: both ties of its cable "
        "go over it too"
    )
    far = "Its far end is bared for the ring-out and closed off after it"
    if link is None:
        return f"{name}: a spare, joined to nothing. {here}. {far}"
    return (
        f"{name}: joined to nothing here; in the car it is for: {link.purpose}, from {link.begins} "
        f"to {link.finishes} (plug.cavity, as on the wiring sheet). First ring it "
        f"from end to end, probes on the cut copper: {_at_most(cable_ohm(wire, defaults))}. "
        f"{here}; it is opened in the car. {far}"
    )


def _at_most(ohm: float | None) -> str:
    if ohm is None:
        return "joined, as little as the core beside it"
    return f"at most {shown(ohm, 2)} Ω more than the leads alone"
