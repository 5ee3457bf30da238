"""What is said in the box of an amplifier: what it joins inside, and what nobody has decided."""

from __future__ import annotations

from builder.planning.circuit.model import Unit
from builder.rendering.drawings.wiring.reading import Reading

NOT_CHOSEN = "not chosen yet"
"""What stands below the name of an amplifier that is of no record."""


def inside(reading: Reading, unit: Unit) -> list[tuple[str, str]]:
    """Return the terminals that have a line in a unit's box, each with its words: one that hears
    others inside, and a turn-on of which nobody has decided what switches it.
    """
    heard: dict[str, list[str]] = {}
    for link in reading.circuit.links:
        own = link.carries == "line" and reading.index.unit_of(link.begins) == unit
        if own and not any(reading.index.wires_of(link)):
            start = reading.index.terminals[link.begins].name
            heard.setdefault(link.finishes, []).append(start)
    names = reading.index.terminals
    joined = [(end, f"{names[end].name}: {', '.join(ins)}") for end, ins in heard.items()]
    switched = {end for strand in reading.controls for end in (strand.way[0], strand.way[-1])}
    own_turn_on = (t for t in unit.terminals if t.carries == "control" and t.id not in switched)
    return joined + [(each.id, f"{each.name}: not decided") for each in own_turn_on]
