"""Every case of every rule, and the rules on a record that is in order."""

from __future__ import annotations

import pytest
from case_files import Case, Found, read_cases, run_case

from builder.findings import Severity
from builder.rules.registry import BY_ID, RULES, rules_for
from builder.rules.rule import Rule, Scope

ALL_CASES = [case for rule in RULES for case in read_cases(rule.id)]


@pytest.mark.parametrize("case", ALL_CASES, ids=str)
def test_a_case_gives_what_it_expects(case: Case) -> None:
    rule = BY_ID[case.rule_id]
    expected = case.data.get("expect", [])
    found = sorted(run_case(rule, case))
    assert len(found) == len(expected), found
    for want in expected:
        assert any(_matches(want, seen, rule) for seen in found), (want, found)


def _matches(want: dict[str, str], seen: Found, rule: Rule) -> bool:
    path, message, severity, vehicle = seen
    word = want.get("severity", rule.severity.word)
    return (
        path == want["path"]
        and want["message"] in message
        and severity is Severity[word.upper()]
        and vehicle == want.get("vehicle", "")
    )


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_record_in_order_is_left_alone(rule: Rule) -> None:
    untouched = Case(rule.id, "passing", {"name": "the base record"})
    assert run_case(rule, untouched) == []


def test_rules_are_picked_by_scope_and_kind() -> None:
    assert set(rules_for(Scope.RECORD)) == {r for r in RULES if r.scope is Scope.RECORD}
    assert rules_for(Scope.RECORD, "cable") == ()
    everything = [rule for scope in Scope for rule in rules_for(scope)]
    assert sorted(everything, key=id) == sorted(RULES, key=id)


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
