"""What the readings of a job cannot find, in few lines of its work pack."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.planning.comeback.caught import UNCAUGHT_WORDS, Catch

_SHOWN = 3
"""So many faults are named for each reason; the command lists all."""
NO_LINE = "no line of this sheet looks there"
"""What is said of a sheet that was made before a line for it was."""


class Missed(NamedTuple):
    """One reason, how many faults have it, and the first of them."""

    why: str
    many: int
    faults: str


class CaughtView(NamedTuple):
    """How many single faults a job allows, how many its readings find in time, and the rest."""

    faults: int
    found: int
    missed: tuple[Missed, ...]


def caught_view(catches: Sequence[Catch]) -> CaughtView | None:
    """Return what a work pack says of its bay sheet; None for a job without a circuit."""
    if not catches:
        return None
    by_reason: dict[str, list[str]] = {}
    for each in catches:
        if not each.in_time:
            by_reason.setdefault(why_words(each), []).append(each.fault.what)
    missed = (Missed(why, len(said), _named(said)) for why, said in by_reason.items())
    return CaughtView(len(catches), sum(each.in_time for each in catches), tuple(missed))


def why_words(each: Catch) -> str:
    """Return why no line finds a fault in time."""
    return UNCAUGHT_WORDS[each.because] if each.because else NO_LINE


def _named(said: Sequence[str]) -> str:
    shown = "; ".join(said[:_SHOWN])
    more = len(said) - _SHOWN
    return f"{shown}; and {more} more" if more > 0 else shown
