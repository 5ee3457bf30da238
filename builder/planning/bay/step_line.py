"""One step of the work, before it has its number."""

from __future__ import annotations

from builder.planning.words import Phase
from builder.planning.work_pack import Step


def step(
    phase: Phase,
    text: str,
    gate: str = "",
    blocked: str = "",
    *,
    lines: tuple[str, ...] = (),
    makes: tuple[str, ...] = (),
) -> Step:
    """Return a step that still wants its number."""
    return Step(0, phase, text, gate, blocked, lines, makes)
