"""Whether a capacitor that holds a turn-on up is filled: current takes a diode one way only."""

from __future__ import annotations

from collections.abc import Iterable

from builder.planning.circuit.model import Circuit, Element, EndId
from builder.planning.circuit.nets import continuity
from builder.planning.circuit.terminal_names import BATTERY_MINUS, across_coil


def is_charged(circuit: Circuit, store: Element, live: Iterable[EndId]) -> bool:
    """Return whether live terminals fill a capacitor whose other lead is on battery −.

    A diode conducts from its first lead to its second. One across a coil that is switched carries
    what the coil gives back, and fills nothing.
    """
    nets = continuity(circuit, parts=lambda part: part.kind not in ("capacitor", "diode"))
    aside = {across_coil(unit.id) for unit in circuit.units if unit.kind == "turn_on_load"}
    diodes = [part for part in circuit.elements if part.kind == "diode" and part.id not in aside]
    reached = {nets.of(end) for end in live}
    while (
        more := {nets.of(part.ends[1]) for part in diodes if nets.of(part.ends[0]) in reached}
        - reached
    ):
        reached |= more
    fills, empties = store.ends
    return nets.of(fills) in reached and nets.together(empties, BATTERY_MINUS)
