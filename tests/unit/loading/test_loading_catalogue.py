"""Each id is explained, and each explanation's example does what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.findings import Severity
from builder.loading import CATALOGUE, refusals

WITHOUT_SNIPPET = {"YML101", "YML102", "YML103", "YML123", "YML124"}
SNIPPET = re.compile(r"```yaml\n(.*?)\n```", re.DOTALL)


@pytest.mark.parametrize("entry", CATALOGUE, ids=lambda entry: entry.id)
def test_entry_is_complete(entry):
    texts = (entry.title, entry.what, entry.why, entry.example, entry.fix, entry.source)
    assert all(text.strip() for text in texts)
    assert entry.severity is Severity.STOP
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)+", entry.slug)


def test_ids_and_slugs_are_unique_and_in_order():
    numbers = [entry.id for entry in CATALOGUE]
    assert numbers == sorted(set(numbers))
    assert len({entry.slug for entry in CATALOGUE}) == len(CATALOGUE)


@pytest.mark.parametrize(
    "entry", [e for e in CATALOGUE if e.id not in WITHOUT_SNIPPET], ids=lambda entry: entry.id
)
def test_example_is_refused_and_its_remedy_accepted(load, entry):
    refused, accepted = SNIPPET.findall(entry.example)
    assert entry.id in {finding.rule_id for finding in load(refused).findings}
    assert load(accepted).findings == []


def test_every_id_the_loader_can_report_is_explained():
    folder = Path(refusals.__file__).parent
    code = "".join(path.read_text("utf-8") for path in folder.glob("*.py"))
    assert set(re.findall(r'"(YML\d+)"', code)) == {entry.id for entry in CATALOGUE}
