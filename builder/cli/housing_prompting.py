"""The housing of a plug in an interview: those of the book that it could be, and the chosen one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.cli.asking import Terminal
from builder.editing.drafts.housing_choice import fits, fitting_housings, shape_of
from builder.editing.interview.log import Log
from builder.editing.interview.steps import Step
from builder.model.housing import Housing
from builder.model.words import UNKNOWN

Housings = Mapping[str, Housing]


def usual_housing(log: Log, housings: Housings, step: Step) -> str | None:
    """What is shown to be confirmed: the first that fits, and none that is only near."""
    return "1" if _has_fitting(log, housings, step) else step.default


def show_housings(terminal: Terminal, log: Log, housings: Housings, step: Step) -> None:
    """Show those that fit, else those that come nearest, each with its number."""
    found = _fitting(log, housings, step)
    if not _has_fitting(log, housings, step):
        count, latch = _shape(log, step)
        shape = f"{count} cavities and its latch at the {latch}" if latch else f"{count} cavities"
        terminal.say(f"  no housing of the book has {shape}{'; the nearest:' if found else ''}")
    for number, housing in enumerate(found, 1):
        terminal.say(f"  {number}. {housing.id}: {shape_of(housing)}")


def chosen_housing(terminal: Terminal, log: Log, housings: Housings, step: Step, text: str) -> str:
    """The id of the housing that a number of the list, or a text, means."""
    found = _fitting(log, housings, step)
    if text.strip().isdigit() and 0 < int(text) <= len(found):
        return found[int(text) - 1].id
    if text.strip() not in (*housings, UNKNOWN):
        terminal.say("  the book has no such housing: loombook new housing makes it")
    return text.strip()


def _shape(log: Log, step: Step) -> tuple[int, Any]:
    """How many cavities the plug has, and where its latch is, "" where nobody looked."""
    plug = step.key.removesuffix("housing")
    latch = log.one(f"{plug}latch") or ""
    return int(log.one(f"{plug}cavities") or 0), "" if latch == UNKNOWN else latch


def _fitting(log: Log, housings: Housings, step: Step) -> list[Housing]:
    return fitting_housings(housings.values(), *_shape(log, step))


def _has_fitting(log: Log, housings: Housings, step: Step) -> bool:
    return any(fits(each, *_shape(log, step)) for each in housings.values())
