"""Each rule says of each of its weights whether a record is wrong or only not yet known."""

from __future__ import annotations

import re

from case_files import read_cases, run_case
from each_case import each

from builder.findings import NOT_YET_KNOWN, Says, Severity
from builder.pipeline.answers.explanations import explain_rule
from builder.rendering.pages.catalogue import weight_words
from builder.rules.registry import RULES
from builder.rules.rule import Rule

THIN = re.compile(
    r"nobody|nothing tells|not yet|no reading|not (?:measured|proved|written)|is graded|"
    r"no .* among|lacks|has no |"
    r"one (?:contributor|tell)|states none|are? (?:not )?known|beyond|is a guess|starts from zero|"
    r"measured first|which box",
)
"""Words for what is missing."""

SAYS_NOBODY = {
    "EVD104": "two who looked disagree: one of them is wrong, whoever measured nothing",
    "LOM101": "a name leads nowhere; why that matters is told by what nobody can tell then",
    "LOM102": "a wire that ends in no cavity cannot be built",
    "PIN108": "a name leads nowhere; why that matters is told by what nobody can tell then",
    "PIN116": "one of two records was counted on the wrong face",
    "PIN119": "a drawing that says two things",
    "PIN125": "a name leads nowhere",
    "PIN126": "a circle: nobody can begin",
    "SAF120": "a lead that nobody looked at is not clipped on",
    "TOP101": "a name leads nowhere; why that matters is told by what nobody can tell then",
    "TOP113": "a warning that nobody would hear",
    "CAB105": "a spare core that nobody is told to close off",
}
"""Rules that speak of nobody or nothing and yet mean what is wrong, each with the reason."""


def messages(rule: Rule, says: Says, severities: frozenset[Severity]) -> list[str]:
    found = [fault for case in read_cases(rule.id) for fault in run_case(rule, case)]
    return [m for _, m, severity, _, said in found if severity in severities and said == says]


@each("rule", [r for r in RULES if r.not_known or r.partly], ids=lambda rule: rule.id)
def test_what_is_not_yet_known_is_said_of_what_is_missing(rule: Rule) -> None:
    said = messages(rule, NOT_YET_KNOWN, rule.not_known | rule.partly)
    assert said, "no case shows it"
    assert [message for message in said if not THIN.search(message)] == []


@each("rule", [rule for rule in RULES if rule.partly], ids=lambda rule: rule.id)
def test_what_does_harm_and_what_nobody_looked_at_are_told_apart(rule: Rule) -> None:
    """One weight for both, and a case of each: the check fails for the first alone."""
    assert rule.partly.isdisjoint(rule.not_known)
    assert messages(rule, "wrong", rule.partly), "no case shows what does harm"
    assert messages(rule, NOT_YET_KNOWN, rule.partly), "no case shows what nobody looked at"


@each("rule", RULES, ids=lambda rule: rule.id)
def test_what_nobody_did_is_not_called_wrong(rule: Rule) -> None:
    wrong = messages(rule, "wrong", frozenset(Severity))
    said = [m for m in wrong if re.search(r"nobody|not yet|not known", m)]
    assert bool(said) == (rule.id in SAYS_NOBODY), said


@each("rule", RULES, ids=lambda rule: rule.id)
def test_only_a_weight_that_is_declared_so_says_either(rule: Rule) -> None:
    """A mark on a fault of another weight would do nothing."""
    for case in read_cases(rule.id):
        for _, message, severity, _, said in run_case(rule, case):
            declared = severity in rule.not_known | rule.partly
            assert said == "wrong" or declared, message


@each("rule", RULES, ids=lambda rule: rule.id)
def test_the_page_of_a_rule_says_which(rule: Rule) -> None:
    grave = [weight for weight in rule.not_known if weight.is_grave]
    told = "no check fails for it" in weight_words(explain_rule(rule))
    assert told == (bool(grave or rule.partly) or rule.severity in rule.not_known)


def test_contradictions_are_wrong_and_thin_proof_is_not() -> None:
    thin = {rule.id for rule in RULES if Severity.STOP in rule.not_known}
    assert {"EVD101", "EVD102", "PIN106", "PIN115", "TOP104"} <= thin
    wrong = {rule.id for rule in RULES if Severity.STOP not in rule.not_known | rule.partly}
    assert {"EVD104", "PIN101", "MET102", "PIN116", "SAF103", "TOP114"} <= wrong
