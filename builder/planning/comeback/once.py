"""What is worked out of a condition once, however many readings ask for it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from builder.planning.comeback.condition import Condition
from builder.planning.comeback.handed_over import HandedOver

Found = TypeVar("Found")


def once(
    work: Callable[[HandedOver, Condition], Found],
) -> Callable[[HandedOver, Condition], Found]:
    """Return what works something out of a condition once: many readings ask for the same."""

    def known(job: HandedOver, now: Condition) -> Found:
        if work.__name__ not in now.known:
            now.known[work.__name__] = work(job, now)
        found: Found = now.known[work.__name__]
        return found

    return known
