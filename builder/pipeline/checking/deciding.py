"""Plans of a vehicle: what stops bar is handed to the planner, the gate decides what may stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.closing import closed_plan, doubted_plan, nothing_joined, unmade_plan
from builder.pipeline.checking.gate import (
    Gate,
    closes,
    names_of_plan,
    only_grades,
    still_open,
    usable_interfaces,
)
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.records import ReadRecord
from builder.pipeline.checking.ruling import run_rules
from builder.planning.feeds.plan_advice import would_do
from builder.planning.feeds.tap_plan import Treatment, make_plan, serves
from builder.planning.objections import Objection
from builder.planning.plan import Plan
from builder.planning.trust import GradeOf
from builder.rules.registry import rules_for
from builder.rules.rule import Scope


@dataclass(frozen=True, slots=True)
class DecidedPlan:
    """A plan as the gate leaves it; what stands open against it, and what else its rules found."""

    plan: Plan
    findings: tuple[Finding, ...]


def decide_plan(
    read: ReadRecord,
    vehicle: Vehicle,
    converter: Converter,
    shelf: Shelf,
    gate: Gate,
    treatment: Treatment = "auto",
) -> DecidedPlan:
    """Return the plan for a vehicle and a converter, and which others would do instead."""
    decided = _decided(read, vehicle, converter, shelf, gate, treatment)
    if decided.plan.kind == "tap_plan":
        return decided
    others = [
        _decided(read, vehicle, other, shelf, gate, treatment).plan
        for other in shelf.converters.values()
        if other.id != converter.id and serves(vehicle, other, shelf.defaults)[0]
    ]
    return _advised(decided, others, shelf)


def plans_of(
    read: ReadRecord,
    vehicle: Vehicle,
    shelf: Shelf,
    gate: Gate,
    grade: GradeOf | None = None,
) -> list[DecidedPlan]:
    """Return a plan for every converter of the book that makes sense with this vehicle."""
    decided = [
        _decided(read, vehicle, converter, shelf, gate, "auto", grade)
        for converter in shelf.converters.values()
        if serves(vehicle, converter, shelf.defaults)[0]
    ]
    plans = [one.plan for one in decided]
    return [_advised(one, plans, shelf) for one in decided]


def _decided(
    read: ReadRecord,
    vehicle: Vehicle,
    converter: Converter,
    shelf: Shelf,
    gate: Gate,
    treatment: Treatment,
    grade: GradeOf | None = None,
) -> DecidedPlan:
    try:
        plan = _made(vehicle, converter, shelf, gate, treatment, grade)
        found = run_rules(rules_for(Scope.PLAN), read, plan, vehicle, shelf)
    except Exception as error:
        plan, found = unmade_plan(vehicle.id, converter.id), [own_fault(read.file.shown, error)]
    standing = (*gate.standing(names_of_plan(vehicle, converter)), *still_open(found))
    rest = [finding for finding in found if finding not in standing]
    doubts = gate.doubts(standing, vehicle, shelf.defaults) if only_grades(standing) else ()
    return DecidedPlan(_passed(plan, standing, doubts, gate), (*standing, *rest))


def _made(
    vehicle: Vehicle,
    converter: Converter,
    shelf: Shelf,
    gate: Gate,
    treatment: Treatment,
    grade: GradeOf | None,
) -> Plan:
    return make_plan(
        vehicle,
        converter,
        defaults=shelf.defaults,
        grade=grade,
        treatment=treatment,
        barred=gate.bars(vehicle.id),
        interfaces=usable_interfaces(shelf, gate),
    )


def _passed(
    plan: Plan, standing: Sequence[Finding], doubts: tuple[Objection, ...], gate: Gate
) -> Plan:
    """What the gate leaves of a plan: a tap plan only while nothing stands open."""
    refusals = gate.refusals(standing)
    if doubts and plan.kind == "tap_plan":
        return doubted_plan(plan, doubts)
    if standing and (plan.kind == "tap_plan" or closes(standing)):
        return closed_plan(plan, refusals)
    if plan.kind == "tap_plan":
        return plan
    return nothing_joined(replace(plan, refusals=(*plan.refusals, *refusals)))


def _advised(decided: DecidedPlan, others: Sequence[Plan], shelf: Shelf) -> DecidedPlan:
    """The plan with the converters whose own plan has passed the gate."""
    plan = decided.plan
    if plan.kind == "tap_plan":
        return decided
    advice = would_do(plan, [(shelf.converters[each.converter], each) for each in others])
    return replace(decided, plan=replace(plan, alternatives=advice))
