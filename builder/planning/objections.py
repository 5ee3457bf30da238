"""What stands in the way of a tap plan, and how far: for good, or until something is measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.planning.plan import Reason


@dataclass(frozen=True, slots=True)
class Objection:
    """A reason against a tap plan. `settled_by_reading`: a measurement can remove it."""

    reason: Reason
    settled_by_reading: bool = False


def object_to(
    decision: str, because: str, source: str, *, settled_by_reading: bool = False
) -> Objection:
    """Return an objection, worded as a decision with its reason."""
    return Objection(Reason(decision, because, source), settled_by_reading)


def plan_kind(objections: Iterable[Objection]) -> str:
    """Return tap_plan, probe_plan or no_plan: the worst that the objections leave."""
    kind = "tap_plan"
    for objection in objections:
        if not objection.settled_by_reading:
            return "no_plan"
        kind = "probe_plan"
    return kind
