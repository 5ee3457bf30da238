"""One step of the work, before it has its number."""

from __future__ import annotations

from builder.planning.words import Phase
from builder.planning.work_pack import Step


def step(phase: Phase, text: str, gate: str = "", blocked: str = "") -> Step:
    """Return a step that still wants its number."""
    return Step(0, phase, gate, blocked, text)
