"""Which rules fire where on the shipped book: shipped_findings.yaml holds them all.

The table lists every stop, fix and warn on vehicles and parts one by one, and counts the notes
of each rule. Jobs and the book's own settings have tests of their own.
"""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from shipped_book import PINOUTS

from builder.book import open_book
from builder.findings import DataPath, Finding, Severity
from builder.loading import load_file
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.records import read_record

TABLE = Path(__file__).parent / "shipped_findings.yaml"
_LISTED = (Severity.STOP, Severity.FIX, Severity.WARN)
Line = tuple[str, str, str, str, str]


@cache
def checked() -> CheckedBook:
    return check_book(open_book(PINOUTS))


@cache
def table() -> dict[str, Any]:
    data = load_file(TABLE, TABLE.name).data
    assert data is not None
    return data


@cache
def records() -> dict[str, dict[str, Any]]:
    """Data of each vehicle and part by the file name that findings carry."""
    files = [file for file in checked().book.files() if file.kind not in ("job", "book")]
    return {file.shown: read_record(file).data for file in files}


def found() -> list[Finding]:
    return [finding for finding in checked().findings if finding.file in records()]


def place(data: dict[str, Any], path: DataPath) -> str:
    """A plug or cavity as people write it, "A.4"; anything else as its path in the record."""
    if path[:1] != ("plugs",) or len(path) < 2:
        return ".".join(str(step) for step in path)
    plug = data["plugs"][path[1]]
    if len(path) < 4 or path[2] != "pins":
        return str(plug["id"])
    return f"{plug['id']}.{plug['pins'][path[3]]['cavity']}"


def line_of(finding: Finding) -> Line:
    data = records()[finding.file]
    accepted = "accepted" if finding.accepted else "open"
    where = place(data, finding.path)
    return (data["id"], where, finding.severity.word, finding.rule_id, accepted)


def test_exactly_the_listed_findings_fire() -> None:
    fired = Counter(line_of(finding) for finding in found() if finding.severity in _LISTED)
    listed = Counter(tuple(line) for line in table()["findings"])
    assert {"fires and is not listed": fired - listed, "listed and silent": listed - fired} == {
        "fires and is not listed": Counter(),
        "listed and silent": Counter(),
    }


def test_each_rule_gives_the_counted_notes() -> None:
    notes = Counter(f.rule_id for f in found() if f.severity is Severity.NOTE)
    assert dict(notes) == table()["notes"]


def test_every_dispute_is_accepted_with_a_reason_and_no_thin_pin_is() -> None:
    grave = [finding for finding in found() if finding.severity.is_grave]
    disputed = {finding.says == "wrong" for finding in grave if finding.accepted}
    thin = {finding.says for finding in grave if not finding.accepted}
    assert disputed == {True} and thin == {"not yet known"}


@pytest.mark.parametrize(
    ("path", "words"),
    [
        (("plugs", 0, "pins", 1, "function"), "A.7"),
        (("plugs", 0, "housing"), "A"),
        (("scope", "year_to"), "scope.year_to"),
    ],
)
def test_places_are_written_as_people_write_them(path: DataPath, words: str) -> None:
    assert place({"plugs": [{"id": "A", "pins": [{"cavity": 1}, {"cavity": 7}]}]}, path) == words
