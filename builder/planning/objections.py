"""What stands in the way of a tap plan, and how far: for good, or until something is measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.planning.plan import ProofReading, Reason
from builder.planning.words import PlanKind


@dataclass(frozen=True, slots=True)
class Objection:
    """A reason against a tap plan. The readings of `settled_by` can remove it."""

    reason: Reason
    settled_by: tuple[ProofReading, ...] = ()


def object_to(
    decision: str, because: str, source: str, *, settled_by: Iterable[ProofReading] = ()
) -> Objection:
    """Return an objection, worded as a decision with its reason."""
    return Objection(Reason(decision, because, source), tuple(settled_by))


def plan_kind(objections: Iterable[Objection]) -> PlanKind:
    """Return the worst that the objections leave."""
    kind: PlanKind = "tap_plan"
    for objection in objections:
        if not objection.settled_by:
            return "no_plan"
        kind = "probe_plan"
    return kind


def settling_readings(objections: Iterable[Objection]) -> tuple[ProofReading, ...]:
    """Return what to measure to remove the objections, each reading once."""
    return tuple(dict.fromkeys(r for objection in objections for r in objection.settled_by))
