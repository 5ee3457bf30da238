"""No hint of a rule and no page of one offers a figure that somebody could file as his own."""

from __future__ import annotations

import pytest
from case_files import faults_of, read_cases
from each_case import each

from builder.rules.pages import catalogue_entry, parse_page
from builder.rules.read_off import READ_IT, asked_for, figures_in, read_off_keys
from builder.rules.registry import RULES
from builder.rules.rule import Rule

PRESCRIBED = {"MET115": "the two levels that there are: 5 or 3.3"}
"""Rules whose hint names figures that are no readings."""


@each("rule", RULES, ids=lambda rule: rule.id)
def test_no_hint_of_any_case_offers_one(rule: Rule) -> None:
    hints = {f.help for case in read_cases(rule.id) for f, _ in faults_of(rule, case)}
    found = [hint for hint in hints if figures_in(hint)]
    assert bool(found) == (rule.id in PRESCRIBED), found


@each("rule", RULES, ids=lambda rule: rule.id)
def test_what_mends_it_is_asked_for_on_its_page(rule: Rule) -> None:
    found, _, in_order = catalogue_entry(rule, rule.page).example.partition("# in order")
    assert set(figures_in(in_order)) <= set(figures_in(found))
    assert figures_in(parse_page(rule.page).fix) == () or rule.id in PRESCRIBED


@pytest.mark.parametrize(
    "put_back", ["battery_v: 12.62", "minutes: 65", "value: -0.3", "drop_mv: 9"]
)
def test_one_that_is_put_back_is_found(put_back: str) -> None:
    text = f"- {{session: s1, state: asleep, {put_back}, quantity: dc_v}}"
    assert figures_in(text) == (put_back,)
    key = put_back.partition(":")[0]
    assert f"{key}: {READ_IT}" in asked_for(text, "") and asked_for(text, text) == text
    assert key in read_off_keys()
