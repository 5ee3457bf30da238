"""The car's plug behind a loom: what is plugged there, and how it is called."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire, EndId, Joint
from builder.planning.words import UnitKind
from builder.rendering.drawings.wiring.reading import Reading, Strand


def plugged_into(reading: Reading, cavity: EndId) -> str:
    """What a cavity of the car is plugged into that is not the radio, or nothing."""
    looms, interfaces = _home(reading, cavity, "loom"), _home(reading, cavity, "interface")
    if looms:
        return f"car end of {reading.index.unit_of(looms[0]).id}"
    return f"plug of {reading.index.unit_of(interfaces[0]).id}" if interfaces else ""


def wire_before(reading: Reading, kept: Strand) -> CircuitWire | None:
    """The loom's wire that a wire of the car is plugged onto, or None."""
    for end in _home(reading, kept.way[0], "loom"):
        for joint in _met(reading, end):
            wires = [reading.index.owners.get(each) for each in joint.joins]
            found = [wire for wire in wires if isinstance(wire, CircuitWire)]
            if found:
                return found[0]
    return None


def at_plug(reading: Reading, kept: Strand) -> tuple[str, ...]:
    """What is one at the plug behind a loom's wire: cavities, joints, the plug itself."""
    cavity = kept.way[0]
    joints = _met(reading, cavity)
    return (reading.index.unit_of(cavity).id, cavity, *_home(reading, cavity, "loom"),
            *(joint.id for joint in joints))  # fmt: skip


def _home(reading: Reading, cavity: EndId, kind: UnitKind) -> list[EndId]:
    homes = [joint for joint in _met(reading, cavity) if joint.kind == "plug_home"]
    met = [end for joint in homes for end in joint.joins if end in reading.index.terminals]
    return [end for end in met if reading.kind_of(end) == kind]


def _met(reading: Reading, end: EndId) -> list[Joint]:
    return reading.index.joints_of.get(end, [])
