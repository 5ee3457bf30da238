"""One step of the work, before it has its number."""

from __future__ import annotations

from builder.planning.sheet_rows import Step
from builder.planning.words import Phase


def step(
    phase: Phase,
    text: str,
    gate: str = "",
    blocked: str = "",
    *,
    lines: tuple[str, ...] = (),
    makes: tuple[str, ...] = (),
    sets: tuple[str, ...] = (),
) -> Step:
    """Return a step that still wants its number."""
    return Step(0, phase, gate, blocked, lines, makes, text, sets)
