"""A named subset of the public YAML test suite, and a second reader of YAML 1.2."""

from __future__ import annotations

import json
from collections.abc import Callable
from io import StringIO
from pathlib import Path

import pytest
from each_case import Test, each
from ruamel.yaml import YAML

from builder.loading import EventSource, load_text
from builder.loading.events import available_sources

SUITE = json.loads(
    (Path(__file__).parents[2] / "vectors" / "yaml_test_suite_subset.json").read_text("utf-8")
)


def of_suite(*groups: str) -> Callable[[Test], Test]:
    """Each case of these groups."""
    cases = [case for group in groups for case in SUITE[group]]
    return each("case", cases, ids=lambda case: f"{case['id']}-{case['index']}")


def ids(findings) -> list[str]:
    return sorted({finding.rule_id for finding in findings})


def read_with_second_reader(text: str) -> object:
    reader = YAML(typ="safe", pure=True)
    reader.version = (1, 2)
    return reader.load(StringIO(text))


def needs(source: EventSource) -> None:
    if source not in available_sources():
        pytest.skip("PyYAML was built without libyaml here")


@of_suite("accepted")
def test_accepted_case_is_what_the_suite_says(load, case):
    loaded = load(case["yaml"])
    assert (loaded.findings, loaded.data) == ([], case["json"])


@of_suite("accepted")
def test_second_reader_reads_the_same(case):
    assert load_text(case["yaml"], "f").data == read_with_second_reader(case["yaml"])


@of_suite("tabs_between")
def test_tab_between_key_and_value_is_refused_by_one_parser_and_misread_by_none(case):
    needs(EventSource.LIBYAML)
    assert load_text(case["yaml"], "f", EventSource.LIBYAML).data == case["json"]
    assert ids(load_text(case["yaml"], "f", EventSource.PYTHON).findings) == ["YML106"]


@of_suite("refused", "invalid", "stricter")
def test_case_is_refused(load, case):
    assert ids(load(case["yaml"]).findings) == case["findings"]


@of_suite("lenient")
def test_invalid_case_both_parsers_let_pass(load, case):
    assert load(case["yaml"]).findings == []


def test_second_reader_reads_the_template_alike():
    path = Path(__file__).parents[3] / "pinouts" / "vehicles" / "TEMPLATE.yaml"
    text = path.read_text("utf-8")
    theirs = json.loads(json.dumps(read_with_second_reader(text), default=str))
    assert load_text(text, "f").data == theirs
