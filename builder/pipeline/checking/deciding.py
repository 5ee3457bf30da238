"""Plans with the rules' findings in hand: what a stop bars, and whether a plan may stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from builder.findings import DataPath, Finding, Severity
from builder.model.book import Shelf
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.records import ReadRecord
from builder.pipeline.checking.ruling import run_rules
from builder.planning.feeds.tap_plan import Treatment, make_plan, serves, unless_refused
from builder.planning.job.refused_pack import NOTHING_JOINED
from builder.planning.plan import Plan, Reason
from builder.planning.trust import GradeOf
from builder.rules.registry import rules_for
from builder.rules.rule import Scope

_NOT_ABOUT_PINS = frozenset({"accept", "photos", "edited", "id", "how_to_tell"})
"""Parts of a record a stop may stand on without making a pin doubtful."""

_ABOUT_GRADES = frozenset({"EVD101", "EVD102", "EVD104"})
"""Rules that say how far a pin is proved. The planner weighs grades itself, and asks for the
reading that settles a doubt; barring the pin would only hide that."""


@dataclass(frozen=True, slots=True)
class DecidedPlan:
    """A plan with the findings of the plan rules on it."""

    plan: Plan
    findings: tuple[Finding, ...]


def barred_paths(findings: Iterable[Finding]) -> dict[DataPath, str]:
    """Return what stop findings bar from use, by data path, each with its reason.

    A stop the record accepts bars all the same: accepting says "we know", not "it is safe".
    """
    return {
        finding.path: f"{finding.rule_id}: {finding.message}"
        for finding in findings
        if finding.severity is Severity.STOP
        and finding.rule_id not in _ABOUT_GRADES
        and not _NOT_ABOUT_PINS & set(finding.path[:1])
    }


def decide_plan(
    read: ReadRecord,
    vehicle: Vehicle,
    converter: Converter,
    shelf: Shelf,
    findings: Sequence[Finding],
    treatment: Treatment = "auto",
    grade: GradeOf | None = None,
) -> DecidedPlan:
    """Return the plan for a vehicle and a converter; a stop on the plan itself refuses it.

    `grade` answers for pins graded before; without it the planner grades them itself.
    """
    try:
        plan = make_plan(
            vehicle,
            converter,
            defaults=shelf.defaults,
            grade=grade,
            treatment=treatment,
            barred=barred_paths(findings),
        )
        found = run_rules(rules_for(Scope.PLAN), read, plan, vehicle)
    except Exception as error:
        return _unmade(read, vehicle, converter, error)
    stops = [finding for finding in found if finding.severity is Severity.STOP]
    if stops and plan.kind == "tap_plan":
        refusals = tuple(Reason("refused", f"{s.rule_id}: {s.message}", s.docs) for s in stops)
        refused = replace(plan, kind="no_plan", refusals=plan.refusals + refusals, tests=())
        plan = unless_refused(refused)
    return DecidedPlan(plan, tuple(found))


def _unmade(
    read: ReadRecord, vehicle: Vehicle, converter: Converter, error: Exception
) -> DecidedPlan:
    """No plan, because of a fault of our own, which is told."""
    fault = own_fault(read.file.shown, error)
    refusal = Reason("refused", f"{fault.rule_id}: {fault.message}", fault.docs)
    plan = Plan(
        kind="no_plan", vehicle=vehicle.id, converter=converter.id, purpose="not looked into",
        grade="unproved", because=(), feeds=(), insulate=(), turn_on=NOTHING_JOINED, ladder=(),
        levels=(), tests=(), losses=(), refusals=(refusal,),
    )  # fmt: skip
    return DecidedPlan(plan, (fault,))


def plans_of(
    read: ReadRecord,
    vehicle: Vehicle,
    shelf: Shelf,
    findings: Sequence[Finding],
    grade: GradeOf | None = None,
) -> list[DecidedPlan]:
    """Return a plan for every converter of the book that makes sense with this vehicle."""
    return [
        decide_plan(read, vehicle, converter, shelf, findings, grade=grade)
        for converter in shelf.converters.values()
        if serves(vehicle, converter)[0]
    ]
