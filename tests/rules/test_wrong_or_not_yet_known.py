"""Each rule says of each of its weights whether a record is wrong or only not yet known."""

from __future__ import annotations

import re

from case_files import read_cases, run_case
from each_case import each

from builder.findings import Severity
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
    "CIR110": "it may be ground: until somebody looks, joining it is what would be wrong",
    "EVD104": "two who looked disagree: one of them is wrong, whoever measured nothing",
    "LOM101": "a name leads nowhere; why that matters is told by what nobody can tell then",
    "LOM102": "a wire that ends in no cavity cannot be built",
    "LOM113": "ends that do not mate and ends nobody compared: neither is bought",
    "LOM114": "a wire that is lost, whatever it may be",
    "LOM116": "a wire too thin and one without size have the same weight, and do harm",
    "ONN104": "a coil without diode and one nobody looked at have the same weight, and do harm",
    "PIN108": "a name leads nowhere; why that matters is told by what nobody can tell then",
    "PIN116": "one of two records was counted on the wrong face",
    "PIN119": "a drawing that says two things",
    "PIN125": "a name leads nowhere",
    "PIN126": "a circle: nobody can begin",
    "PWR108": "a warning about metal, copper or not",
    "PWR109": "a fuse that nobody knows is no fuse to load",
    "TOP101": "a name leads nowhere; why that matters is told by what nobody can tell then",
    "TOP113": "a warning that nobody would hear",
    "TOP115": "shared and perhaps shared have the same weight, and do harm",
    "TOP120": "bands that cancel and bands that nobody measured have the same weight",
    "CAB105": "a spare conductor that nobody is told to close off",
}
"""Rules that speak of nobody or nothing and yet mean what is wrong, each with the reason."""


def messages(rule: Rule, severities: frozenset[Severity]) -> list[str]:
    found = [fault for case in read_cases(rule.id) for fault in run_case(rule, case)]
    return [message for _, message, severity, _ in found if severity in severities]


@each("rule", [rule for rule in RULES if rule.not_known], ids=lambda rule: rule.id)
def test_what_is_not_yet_known_is_said_of_what_is_missing(rule: Rule) -> None:
    said = messages(rule, rule.not_known)
    assert said, "no case shows it"
    assert [message for message in said if not THIN.search(message)] == []


@each("rule", RULES, ids=lambda rule: rule.id)
def test_what_nobody_did_is_not_called_wrong(rule: Rule) -> None:
    wrong = frozenset(Severity) - rule.not_known
    said = [m for m in messages(rule, wrong) if re.search(r"nobody|not yet|not known", m)]
    assert bool(said) == (rule.id in SAYS_NOBODY), said


@each("rule", RULES, ids=lambda rule: rule.id)
def test_the_page_of_a_rule_says_which(rule: Rule) -> None:
    grave = [weight for weight in rule.not_known if weight.is_grave]
    told = "no check fails for it" in weight_words(explain_rule(rule))
    assert told == (bool(grave) or rule.severity in rule.not_known)


def test_contradictions_are_wrong_and_thin_proof_is_not() -> None:
    thin = {rule.id for rule in RULES if rule.says(Severity.STOP) != "wrong"}
    assert {"EVD101", "EVD102", "PIN106", "PIN115", "TOP104"} <= thin
    wrong = {rule.id for rule in RULES if rule.says(Severity.STOP) == "wrong"}
    assert {"EVD104", "PIN101", "MET102", "PIN116", "SAF103", "TOP114"} <= wrong
