"""Example records: the valid ones are clean, each broken one has exactly its findings."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.findings import Finding
from builder.loading import load_file
from builder.pipeline.checking.shape import by_hand, shape_of
from builder.schema_check import CATALOGUE, KINDS

RECORDS = Path(__file__).parents[2] / "records"
PINOUTS = Path(__file__).parents[3] / "pinouts"
EXPECTED = ".expected.yaml"


def records(folder: str) -> list[Any]:
    found = sorted((RECORDS / folder).glob("*/*.yaml"))
    return [
        pytest.param(path.parent.name, path, id=f"{path.parent.name}/{path.stem}")
        for path in found
        if not path.name.endswith(EXPECTED)
    ]


def findings_of(kind: str, path: Path) -> list[Finding]:
    found = shape_of(kind, load_file(path, path.name), path.name).findings
    return by_hand(found, path.stem == "TEMPLATE")


def expectation(path: Path) -> list[dict[str, Any]]:
    text = path.with_name(path.stem + EXPECTED).read_text(encoding="utf-8")
    wanted: list[dict[str, Any]] = yaml.safe_load(text)
    return wanted


@pytest.mark.parametrize(("kind", "path"), records("valid"))
def test_a_valid_record_is_clean(kind: str, path: Path) -> None:
    assert findings_of(kind, path) == []


@pytest.mark.parametrize("kind", sorted({*KINDS} - {"book", "lock", "readings", "sheet"}))
def test_the_template_is_clean(kind: str) -> None:
    assert findings_of(kind, PINOUTS / f"{kind}s" / "TEMPLATE.yaml") == []


@pytest.mark.parametrize(("kind", "path"), records("invalid"))
def test_a_broken_record_has_exactly_its_findings(kind: str, path: Path) -> None:
    wanted = expectation(path)
    found = findings_of(kind, path)
    places = [(f.rule_id, f.line, f.column) for f in found]
    assert places == [(w["rule"], w["line"], w["column"]) for w in wanted], found
    for finding, want in zip(found, wanted, strict=True):
        assert want.get("message_contains", "") in finding.message
        assert want.get("help_contains", "") in finding.help


def test_every_shape_finding_has_a_broken_record() -> None:
    shown = {
        want["rule"]
        for path in RECORDS.glob("invalid/*/*.yaml")
        if not path.name.endswith(EXPECTED)
        for want in expectation(path)
    }
    assert {entry.id for entry in CATALOGUE} <= shown


def test_every_kind_has_valid_records() -> None:
    assert {path.parent.name for path in RECORDS.glob("valid/*/*.yaml")} == set(KINDS)
