"""What the cover of a work pack says first: whether the job can be built, and to its end."""

from __future__ import annotations

from builder.planning.words import PlanKind
from builder.planning.work_pack import WorkPack

_BANNERS: dict[PlanKind, str] = {
    "tap_plan": "It can be built. Take every reading of the bay sheet; none is left out.",
    "probe_plan": "Do not join anything yet. Measure first: the readings settle what is open.",
    "no_plan": "It cannot be built like this. What stands in the way, and what would have to "
    "change, follows.",
}


_WAITS = (
    "It can be built, and not be finished yet: settle what the steps below wait for before the car "
    "is opened. Then take every reading of the bay sheet; none is left out."
)
"""Of a tap plan with steps that wait: a car that stands open for a figure costs more than it."""


def banner_words(pack: WorkPack) -> str:
    """Return whether a job can be built, and to its end, as its cover says first."""
    waits = pack.kind == "tap_plan" and any(step.blocked for step in pack.steps)
    return _WAITS if waits else _BANNERS[pack.kind]
