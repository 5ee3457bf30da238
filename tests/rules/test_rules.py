"""Every case of every rule, and the rules on a record that is in order."""

from __future__ import annotations

from typing import Any

import pytest
from case_files import (
    Case,
    Found,
    is_about_jobs,
    is_about_parts,
    job_data,
    part_data,
    parts_data,
    read_cases,
    run_case,
    vehicle_changes,
    vehicle_data,
)
from each_case import each

from builder.findings import NOT_YET_KNOWN, Severity
from builder.model.book import Shelf
from builder.model.glossary import slips
from builder.model.kinds import PARTS
from builder.parsing import parse_vehicle
from builder.rules.registry import BY_ID, RULES, rules_for
from builder.rules.rule import Rule, Scope
from builder.schema_check import check_shape
from builder.source_map import Node, Position, SourceMap

FAMILIES = sorted({rule.id[:3] for rule in RULES})


def cases_of(family: str) -> list[Case]:
    return [c for rule in RULES if rule.id.startswith(family) for c in read_cases(rule.id)]


@pytest.mark.parametrize("family", FAMILIES)
@each("case", cases_of)
def test_a_case_gives_what_it_expects(case: Case) -> None:
    rule = BY_ID[case.rule_id]
    expected = case.data.get("expect", [])
    found = sorted(run_case(rule, case))
    assert len(found) == len(expected), found
    assert [slip for _, message, *_ in found for slip in slips(message)] == []
    for want in expected:
        assert any(_matches(want, seen, rule) for seen in found), (want, found)


@pytest.mark.parametrize("family", FAMILIES)
@each("case", cases_of)
def test_a_case_has_a_shape_that_reaches_the_rules(case: Case) -> None:
    nowhere = SourceMap(Node(Position(1, 1)))
    for change in vehicle_changes(case):
        assert check_shape("vehicle", vehicle_data(change), nowhere, case.rule_id) == []
    if is_about_parts(case):
        for kind, data in part_data(case).items():
            assert check_shape(kind, data, nowhere, case.rule_id) == []
    if is_about_jobs(case):
        assert check_shape("job", job_data(case), nowhere, case.rule_id) == []
        for kind, records in parts_data(case).items():
            for data in records.values():
                assert check_shape(kind[:-1], data, nowhere, case.rule_id) == []


def _matches(want: dict[str, Any], seen: Found, rule: Rule) -> bool:
    path, message, severity, vehicle, says = seen
    either = rule.partly and severity in rule.partly
    word = want.get("severity", rule.severity.word)
    return (
        path == want["path"]
        and want["message"] in message
        and severity is Severity[word.upper()]
        and vehicle == want.get("vehicle", "")
        and (not either or (says == NOT_YET_KNOWN) == want.get("not_known", False))
    )


@each("rule", RULES, ids=lambda rule: rule.id)
def test_a_record_in_order_is_left_alone(rule: Rule) -> None:
    untouched = Case(rule.id, "passing", {"name": "the base record"})
    assert run_case(rule, untouched) == []


def test_rules_are_picked_by_scope_and_kind() -> None:
    assert all(rule.scope is Scope.VEHICLE for rule in rules_for(Scope.VEHICLE))
    of_housings = [rule.id for rule in rules_for(Scope.RECORD, "housing")]
    assert of_housings == ["PIN119"]
    of_looms = [rule.id for rule in rules_for(Scope.RECORD, "loom")]
    assert of_looms == ["LOM103", "LOM104", "LOM105", "LOM107", "LOM110", "LOM111", "LOM118"]
    of_amplifiers = [rule.id for rule in rules_for(Scope.RECORD, "amplifier")]
    assert of_amplifiers == ["LVL117", "CIR109"]
    assert [rule.id for rule in rules_for(Scope.RECORD, "converter")] == ["LVL117"]
    of_parts = {kind: [r.id for r in rules_for(Scope.PART, kind)] for kind in PARTS}
    assert of_parts["interface"] == ["LOM101"] and of_parts["housing"] == ["LOM109"]
    among = {rule_id for found in of_parts.values() for rule_id in found}
    assert rules_for(Scope.RECORD, "cable") == ()
    of_jobs = [rule.id for rule in rules_for(Scope.RECORD, "job")]
    assert of_jobs == ["TOP102", "SAF109"]
    picked = [rule.id for scope in Scope for rule in rules_for(scope)]
    picked += [*of_housings, *of_looms, *of_amplifiers, *among, *of_jobs]
    assert sorted(picked) == sorted(rule.id for rule in RULES)


def test_a_hazard_stops() -> None:
    hazards = [rule for rule in RULES if rule.hazard]
    assert hazards
    for rule in hazards:
        severities = {
            Severity[want.get("severity", rule.severity.word).upper()]
            for case in read_cases(rule.id)
            for want in case.data.get("expect", [])
        }
        assert Severity.STOP in severities, rule.id


def test_what_is_kept_of_one_vehicle_does_not_reach_the_next() -> None:
    cases = [case for rule in ("MET103", "MET110", "EVD104") for case in read_cases(rule)]
    alone = {str(case): run_case(BY_ID[case.rule_id], case) for case in cases}
    for case in reversed(cases):
        assert run_case(BY_ID[case.rule_id], case) == alone[str(case)]


def test_a_rule_gives_the_same_answer_for_one_vehicle_again() -> None:
    vehicle = parse_vehicle(vehicle_data({"set": {"plugs.0.pins.7.readings.0.value": 12.4}}))
    other = parse_vehicle(vehicle_data({}))
    rule, shelf = BY_ID["MET103"], Shelf()
    first = rule.run(vehicle, shelf)
    assert [len(first), rule.run(other, shelf), rule.run(vehicle, shelf)] == [1, [], first]
