"""What nothing ties to ground: a simulator needs a way for every node, however weak."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.circuit.nets import Nets
from builder.planning.circuit.spice_lines import GROUND, DeckLine, figure

LEAK_OHM = 1e9
"""Insulation, as a simulator needs it. Common practice, no source."""


def leaks(lines: Sequence[DeckLine]) -> Iterator[DeckLine]:
    """Yield a leak to ground for each part of the netlist that no direct current leaves.

    Those are spare cores, and speakers whose wires were cut and that nothing drives.
    """
    ties = Nets()
    for line in lines:
        ties.join(line.nodes if line.conducts else line.nodes[:1])
    afloat: dict[str, str] = {}
    for node in dict.fromkeys(node for line in lines for node in line.nodes):
        if not ties.together(node, GROUND):
            afloat.setdefault(ties.of(node), node)
    for number, node in enumerate(afloat.values(), 1):
        said = (f"nothing ties {node} to ground",)
        yield DeckLine(f"Rleak{number}", (node, GROUND), figure(LEAK_OHM), said)
