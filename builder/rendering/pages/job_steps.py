"""The steps of a job in phrases: phase by phase, how long each takes, and what waits for what."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from builder.planning.sheet_rows import Stands, Step
from builder.planning.views.names import parted_joint
from builder.rendering.pages.job_tests import PHASES
from builder.rendering.pages.wording import listed, plain

HOURS_FROM_MIN = 90
"""Beyond this a time is said in hours. [min]"""


class StepGroup(NamedTuple):
    """The steps of one phase."""

    title: str
    steps: tuple[Step, ...]


class JoinedLine(NamedTuple):
    """A line of a step. Of lines in a row that end alike, paper says the end once, before them."""

    words: str
    how: str  # how it is joined; empty where a line says nothing of the kind
    begins: bool  # whether it is the first of those that are joined so


def joined_lines(step: Step) -> list[JoinedLine]:
    """Return the lines of a step, parted into what meets and how it is joined."""
    parted = [parted_joint(line) for line in step.lines]
    before = ["", *(how for _, how in parted)]
    return [JoinedLine(*one, one[1] != last) for one, last in zip(parted, before, strict=False)]


def blocked_first(steps: Sequence[Step]) -> dict[str, int]:
    """Return the first step that each reason holds up: on paper the others point to it."""
    first: dict[str, int] = {}
    for step in steps:
        first.setdefault(step.blocked, step.number)
    return first


def step_groups(steps: Sequence[Step]) -> list[StepGroup]:
    """Return the steps by phase, in order, with how long each phase takes."""
    grouped = ((phase, tuple(mine)) for phase, mine in groupby(steps, key=lambda step: step.phase))
    return [
        StepGroup(f"{PHASES.get(phase, plain(phase).capitalize())}, {hands_time(mine)}", mine)
        for phase, mine in grouped
    ]


def waiting_steps(steps: Sequence[Step]) -> list[str]:
    """Return why steps may not be done yet, each reason once, with the steps that wait for it."""
    numbers: dict[str, list[str]] = {}
    for step in steps:
        if step.blocked:
            numbers.setdefault(step.blocked, []).append(str(step.number))
    return [
        f"step{'s' if mine[1:] else ''} {listed(tuple(mine), '')}: {why}"
        for why, mine in numbers.items()
    ]


def has_unknown_wait(steps: Sequence[Step]) -> bool:
    """Whether the restraint system's wait stands in the steps with no minutes on record."""
    waits = [step for step in steps if Stands("battery", "waited") in step.moves]
    return any(step.blocked and not step.takes_min for step in waits)


def hands_time(steps: Sequence[Step]) -> str:
    """Return how long steps take by the house's minutes: "about 50 min", "about 2 h 35 min".

    No closer than five minutes, which are common practice; the whole is the sum of what is printed
    of each part of the work.
    """
    parts = (tuple(mine) for _, mine in groupby(steps, key=lambda step: step.phase))
    minutes = sum(_of_a_part(mine) for mine in parts)
    if minutes <= HOURS_FROM_MIN:
        return f"about {minutes} min"
    hours, over = divmod(minutes, 60)
    return f"about {hours} h {over} min" if over else f"about {hours} h"


def _of_a_part(steps: Sequence[Step]) -> int:
    return max(5, 5 * round(sum(step.takes_min for step in steps) / 5))
