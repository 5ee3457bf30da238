"""Line leads on the parts list: bought ready, or what one is made of at the bench."""

from __future__ import annotations

from collections import Counter

from builder.figures import shown
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.sheet_rows import PartLine
from builder.planning.views.cut_rows import LINE_LEAD, pieces_of

SHIELDED = "shielded line cable"
MADE_HERE = "made at the bench"


def leads_of(index: CircuitIndex) -> dict[str, CircuitWire]:
    """Return the centre, or shield, of each line lead by its piece."""
    pieces = pieces_of(index)
    return {name: wires[0] for name, wires in pieces.items() if wires[0].carries == "line"}


def lead_lines(index: CircuitIndex) -> list[PartLine]:
    """Return the leads by length, the Y-leads before them, and what is made of cable and plugs."""
    leads = list(leads_of(index).values())
    bought = Counter(_name(wire) for wire in leads if not wire.made_here)
    lines = [PartLine(name, count, "", "single; ready made") for name, count in bought.items()]
    forks = sum(joint.kind == "y_lead" for joint in index.circuit.joints) // 2
    if forks:
        lines.append(PartLine("Y-lead", forks, "", "one output to two inputs"))
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
