"""Every rule has a page, a stable id, and cases on both sides of its limit."""

from __future__ import annotations

import re
import textwrap
from pathlib import Path

import pytest
import yaml
from case_files import CASES, read_cases
from each_case import each

import builder.rules
from builder.findings import Severity
from builder.loading import load_text
from builder.rules.pages import HEADINGS, catalogue_entry, parse_page
from builder.rules.registry import RULES
from builder.rules.rule import Rule

FOLDER = Path(builder.rules.__file__).parent
each_rule = each("rule", RULES, ids=lambda rule: rule.id)


@each_rule
def test_the_docstring_is_a_page(rule: Rule) -> None:
    page = parse_page(rule.page)
    for text in (page.summary, page.what, page.why, page.fix, page.source):
        assert text.strip()
    assert page.summary == f"{rule.title}."


@each_rule
def test_the_snippets_are_yaml(rule: Rule) -> None:
    page = parse_page(rule.page)
    for snippet in (page.failing, page.passing):
        for document in re.split(r"^---$", snippet, flags=re.MULTILINE):
            assert yaml.safe_load(document), snippet
            whole = f"snippet:\n{textwrap.indent(document, '  ')}"
            assert load_text(whole, rule.id).findings == []
    assert page.failing != page.passing


@each_rule
def test_the_source_says_what_it_is(rule: Rule) -> None:
    source = parse_page(rule.page).source
    words = ("no source", "hosen by this project", "(read)", "(memory)", "(second hand)")
    assert any(word in source for word in words), source


@each_rule
def test_the_file_is_named_after_the_fault(rule: Rule) -> None:
    assert (FOLDER / f"{rule.slug.replace('-', '_')}.py").is_file()
    assert re.fullmatch(r"[a-z]+(-[a-z]+)+", rule.slug)


@each_rule
def test_there_are_passing_and_failing_cases(rule: Rule) -> None:
    cases = read_cases(rule.id)
    for kind in ("passing", "failing"):
        assert sum(case.kind == kind for case in cases) >= 2, kind
    for case in cases:
        assert bool(case.data.get("expect")) is (case.kind == "failing"), str(case)


def test_ids_and_slugs_are_unique() -> None:
    assert len({rule.id for rule in RULES}) == len(RULES)
    assert len({rule.slug for rule in RULES}) == len(RULES)
    assert all(
        re.fullmatch(r"(PIN|MET|EVD|TOP|LVL|ONN|PWR|CAB|CIR|SAF|LOM)1\d\d", rule.id)
        for rule in RULES
    )


def test_every_rule_file_is_registered() -> None:
    defining = {path.stem for path in FOLDER.glob("*.py") if "\nRULE = rule(" in path.read_text()}
    assert defining == {rule.slug.replace("-", "_") for rule in RULES}


def test_no_case_file_is_left_behind() -> None:
    assert {path.stem for path in CASES.glob("*.yaml")} == {rule.id for rule in RULES}


def test_a_page_becomes_an_entry_of_the_catalogue() -> None:
    rule = next(rule for rule in RULES if rule.id == "PIN101")
    entry = catalogue_entry(rule, rule.page)
    assert (entry.id, entry.slug, entry.severity) == ("PIN101", "cavity-used-twice", Severity.STOP)
    assert "only_if" in entry.example


@pytest.mark.parametrize("heading", HEADINGS)
def test_a_page_without_a_heading_is_refused(heading: str) -> None:
    whole = RULES[0].page
    with pytest.raises(ValueError, match="headings are"):
        parse_page(whole.replace(heading, "Another heading"))


@pytest.mark.parametrize("word", ["Fails::", "Passes::"])
def test_a_page_without_a_snippet_is_refused(word: str) -> None:
    with pytest.raises(ValueError, match="an example needs"):
        parse_page(RULES[0].page.replace(word, "Shows:"))
