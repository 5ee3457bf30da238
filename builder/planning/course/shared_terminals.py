"""What ends meet at a joint: two wires in one terminal, a wire of the car's own."""

from __future__ import annotations

from collections.abc import Sequence

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import EndId, Joint

_TWO_IN_ONE = (
    "two wires in one terminal ({}): the thin one on a ring or fork under the same screw, or both "
    "in one ferrule; each pulled by hand"
)
"""A thin wire beside a thick one slips out of a clamp. Common practice, no source."""


def shared_words(index: CircuitIndex, joints: Sequence[Joint]) -> str:
    """Return what is minded at those of these joints' terminals that hold two wires, or ""."""
    ends = [end for joint in joints for end in joint.joins if joint.kind == "terminal"]
    both = [x for x in ends if x in index.terminals and len(_screwed(index, x)) > 1]
    names = ", ".join(dict.fromkeys(both))
    return _TWO_IN_ONE.format(names) if names else ""


def _screwed(index: CircuitIndex, terminal: str) -> list[Joint]:
    return [each for each in index.joints_of[terminal] if each.kind == "terminal"]


def is_of_car(index: CircuitIndex, end: EndId) -> bool:
    """Whether an end is a wire or a cavity of the car's own."""
    owner = index.owners.get(end)
    if owner is not None:
        return getattr(owner, "stays", False)
    return index.unit_of(end).kind == "plug"
