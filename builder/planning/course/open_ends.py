"""Where a line of the sheet puts the probes while a device's end is still open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, EndId
from builder.planning.words import UnitKind
from builder.planning.work_pack import BayTest


def at_open_ends(tests: Sequence[BayTest], index: CircuitIndex) -> tuple[BayTest, ...]:
    """Return the lines with the ends that go into a device in the place of its terminals."""
    return tuple(
        replace(test, probes=tuple(_open_end(index, end) for end in test.probes))
        if test.turn == "far_end"
        else test
        for test in tests
    )


def _open_end(index: CircuitIndex, terminal: EndId) -> EndId:
    """The end of the wire that goes into a terminal of ours; any other end is itself."""
    if terminal not in index.terminals or index.unit_of(terminal).kind not in _OURS:
        return terminal
    ends = (end for joint in index.joints_of.get(terminal, []) for end in joint.joins)
    return next((x for x in ends if isinstance(index.owners.get(x), CircuitWire)), terminal)


_OURS: tuple[UnitKind, ...] = ("converter", "amplifier")
