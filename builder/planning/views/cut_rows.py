"""What is cut, and from what: the pieces that a circuit's conductors lie in."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.words import Leg
from builder.planning.cables.cut_lengths import Cut
from builder.planning.cables.piece_names import cable_number
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.jackets import SPARE
from builder.planning.circuit.model import CircuitWire
from builder.planning.sheet_rows import CutRow

_DRY_FIT = "cut after a dry fit"
AS_MEASURED = f"as measured; {_DRY_FIT}"
LINE_LEAD = "line lead"

_LAST: Leg = "negative"
"""The leg of a pair that is listed after the other."""


def pieces_of(index: CircuitIndex) -> dict[str, list[CircuitWire]]:
    """Return the conductors of each piece that the job brings: cables first, by number."""
    pieces: dict[str, list[CircuitWire]] = {}
    for wire in sorted(index.own_wires(), key=_place_in_cable):
        pieces.setdefault(wire.piece, []).append(wire)
    return pieces


def _place_in_cable(wire: CircuitWire) -> tuple[int, bool, int, bool]:
    """Cable, then pairs before singles as in the cable's record; other pieces keep their order."""
    cable = cable_number(wire.piece)
    if cable is None:
        return (sys.maxsize, False, 0, False)
    _, number, *leg = wire.place.split()
    return (cable, not leg, int(number), leg == [_LAST])


def material_of(wires: list[CircuitWire]) -> str:
    """Return what a piece is cut from: a cable's record, a size, or a lead that is sold."""
    first = wires[0]
    if first.cable:
        return first.cable
    if first.carries == "line":
        return LINE_LEAD
    size = first.size.words if first.size else "wire of a size not chosen yet"
    return f"{size} pair" if len(wires) > 1 else size


def cut_rows(index: CircuitIndex, defaults: HouseDefaults) -> tuple[CutRow, ...]:
    """Return every piece that is cut; leads that are sold ready are in the parts list."""
    return tuple(
        _row(name, wires, defaults)
        for name, wires in pieces_of(index).items()
        if wires[0].carries != "line" and wires[0].length_m is not None and not wires[0].loom
    )


def _row(name: str, wires: list[CircuitWire], defaults: HouseDefaults) -> CutRow:
    first = wires[0]
    length = first.length_m or 0.0
    ends = f"{begins_words(wires)} to {first.to_place}{along_words(first)}"
    if first.route_m is not None:
        slack = f"{defaults.cut_slack_share:.0%} for bends, {shown(defaults.cut_end_m)} m an end"
        said = f"{ends}; {first.route_m:g} m of way, {slack}"
        return CutRow(name, material_of(wires), first.route_m, length, said)
    measured = f"{first.length_taken}; {_DRY_FIT}" if first.length_taken else AS_MEASURED
    note = f"both cores, {measured}" if len(wires) > 1 else measured
    return CutRow(name, material_of(wires), None, round(length, 3), f"{ends}; {note}")


def begins_words(wires: Sequence[CircuitWire]) -> str:
    """Return where the conductors of a piece begin: pairs of one jacket may go to two crossovers;
    what is spare has no say."""
    used = [wire.from_place for wire in wires if wire.purpose != SPARE]
    return " and ".join(dict.fromkeys(used or [wires[0].from_place]))


def along_words(wire: CircuitWire) -> str:
    """Return what a piece lies along: ", along main grommet, left sill"; empty where unsaid."""
    return f", along {wire.way}" if wire.way else ""


def cuts_of(index: CircuitIndex, rows: tuple[CutRow, ...]) -> tuple[Cut, ...]:
    """Return each cut with the conductors in use and how many of its ends are spliced."""
    pieces = pieces_of(index)
    return tuple(_cut(index, row, pieces[row.name]) for row in rows)


def _cut(index: CircuitIndex, row: CutRow, wires: list[CircuitWire]) -> Cut:
    used = [wire for wire in wires if index.link_of(wire) is not None]
    ends = [
        any(joint.kind in ("splice", "tap", "element_lead") for joint in index.joints_of[end])
        for wire in used[:1]
        for end in wire.ends
    ]
    return Cut(row.name, row.cut_m, len(used), sum(ends))
