"""Which steps of a pack were ticked, by whom and when: the newest tick of a step counts."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.job import StepTick
from builder.planning.sheet_rows import Step

_LONG = 120
"""So many characters of a step's words name it, as the phone cuts them."""


def step_name(step: Step) -> str:
    """Return what a step is called in notes and ticks: its number and its words.

    A step of another plan has other words, so a tick never goes to a step that it was not for.
    """
    words = f"{step.number}: {' '.join(step.text.split())}"
    return f"step {words[:_LONG].strip()}"


def steps_done(steps: Iterable[Step], ticked: Iterable[StepTick]) -> dict[int, StepTick]:
    """Return the tick of each step that is done, by the step's number."""
    newest = {tick.at: tick for tick in sorted(ticked, key=lambda tick: tick.date)}
    found = {step.number: newest.get(step_name(step)) for step in steps}
    return {number: tick for number, tick in found.items() if tick and tick.done}
