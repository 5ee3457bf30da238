"""The conductor table: every conductor that the job brings, what it carries, where it ends."""

from __future__ import annotations

from builder.planning.cables.piece_names import cable_number
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, EndId, Link
from builder.planning.sheet_rows import ConductorRow
from builder.planning.views.cut_rows import material_of, pieces_of
from builder.planning.views.names import end_words, hands_join
from builder.planning.words import DemandClass, LinkClass

SPARE = "spare: insulate at both ends"
CLOSED_OFF = "nothing: closed off where it is cut"
CLASSES: dict[LinkClass, DemandClass] = {
    "speaker_level": "signal",
    "line": "line",
    "amplified": "amplified",
    "control": "control",
    "supply": "supply",
    "ground": "ground",
    "through": "through",
}


def conductor_rows(index: CircuitIndex) -> tuple[ConductorRow, ...]:
    """Return one row a conductor, piece by piece."""
    return tuple(
        _row(index, wire, material_of(wires))
        for wires in pieces_of(index).values()
        for wire in wires
    )


def _row(index: CircuitIndex, wire: CircuitWire, material: str) -> ConductorRow:
    link = index.link_of(wire)
    used = link is not None or bool(wire.loom)
    return ConductorRow(
        jacket=cable_number(wire.piece),
        cable=wire.cable or material,
        place=wire.place,
        wire=wire.colours,
        purpose=_purpose(wire, link) if used else SPARE,
        demand_class=CLASSES[wire.carries] if used else "spare",
        from_end=wire.from_place,
        to_end=wire.to_place,
        piece=wire.piece,
        from_joint=_met(index, wire.ends[0]),
        to_joint=_met(index, wire.ends[1]),
    )


def _purpose(wire: CircuitWire, link: Link | None) -> str:
    """What it carries; a wire of a loom is known by its cavities, so its link says it."""
    if not wire.loom:
        return wire.purpose
    return CLOSED_OFF if link is None else link.purpose


def _met(index: CircuitIndex, end: EndId) -> str:
    """What an end is joined to: "A.11", "pad of front left signal +", "nothing"."""
    others = [
        end_words(index, other)
        for joint in index.joints_of.get(end, [])
        for other in hands_join(index, joint)
        if other != end
    ]
    return " and ".join(others) or "closed off by itself"
