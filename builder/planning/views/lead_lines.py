"""Line leads on the parts list: bought ready, or what one is made of at the bench."""

from __future__ import annotations

from collections import Counter

from builder.figures import shown
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Unit
from builder.planning.sheet_rows import PartLine
from builder.planning.views.cut_rows import LINE_LEAD, pieces_of

SHIELDED = "shielded line cable"
MADE_HERE = "made at the bench"


def leads_of(index: CircuitIndex) -> dict[str, CircuitWire]:
    """Return the centre, or shield, of each line lead by its piece."""
    pieces = pieces_of(index)
    return {name: wires[0] for name, wires in pieces.items() if wires[0].carries == "line"}


def y_leads(index: CircuitIndex) -> list[Unit]:
    """Return the Y-leads of a job."""
    return [unit for unit in index.circuit.units if unit.kind == "y_lead"]


def y_lead_words(index: CircuitIndex, unit: Unit) -> str:
    """Return what a Y-lead goes into and takes: "plug into CVN-2A out 1; sockets take …"."""
    plug, *sockets = (each.id for each in unit.terminals if not each.name.endswith(" shield"))
    into = next(end for end in _met(index, plug) if index.terminals[end].unit != unit.id)
    takes = [_taken(index, end) for each in sockets for end in _met(index, each)]
    return f"plug into {into}; sockets take {' and '.join(each for each in takes if each)}"


def _met(index: CircuitIndex, terminal: str) -> list[str]:
    joints = [each for each in index.joints_of[terminal] if each.kind == "line_plug"]
    return [end for joint in joints for end in joint.joins if end != terminal]


def _taken(index: CircuitIndex, end: str) -> str:
    owner = index.owners.get(end)
    return owner.piece if isinstance(owner, CircuitWire) else index.unit_of(end).id


def lead_lines(index: CircuitIndex) -> list[PartLine]:
    """Return the leads by length, the Y-leads before them, and what is made at the bench."""
    leads = list(leads_of(index).values())
    bought = Counter(_name(wire) for wire in leads if not wire.made_here)
    lines = [PartLine(name, count, "", "single; ready made") for name, count in bought.items()]
    forks = y_leads(index)
    if forks:
        at = ", ".join(unit.id.removeprefix("Y-lead ") for unit in forks)
        lines.append(PartLine("Y-lead", len(forks), "", f"one plug to two sockets; {at}"))
    return lines + _made([wire for wire in leads if wire.made_here])


def _name(wire: CircuitWire) -> str:
    return LINE_LEAD if wire.length_m is None else f"{LINE_LEAD} {shown(wire.length_m)} m"


def _made(leads: list[CircuitWire]) -> list[PartLine]:
    """Cable by the metre, and a plug for each end."""
    if not leads:
        return []
    metres = round(sum(wire.length_m or 0.0 for wire in leads), 1)
    said = f"{len(leads)} line leads, {MADE_HERE}"
    cable = [PartLine(SHIELDED, metres, "m", said)] if metres else []
    return [*cable, PartLine("line plug", 2 * len(leads), "", f"both ends of {said}")]
