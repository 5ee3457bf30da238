"""Findings for a forge: at most ten a step, the worst first, the rest counted, all escaped."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from shipped_book import loombook

from builder.findings import Finding, Severity
from builder.reporting import as_annotations, finding_text, summary

COMMAND = re.compile(r"::(error|warning|notice)(?: ([^:\n]*))?::([^\r\n]*)\Z")


def finding(severity: Severity, line: int = 1, **more: str) -> Finding:
    texts = {"file": "a.yaml", "message": "wrong", "help": "do this"} | more
    return Finding(
        texts["file"], line, 2, severity, "PIN101", "slug", texts["message"], texts["help"]
    )


def decoded(text: str) -> str:
    """What the forge makes of an escaped text."""
    for code, letter in (("%0D", "\r"), ("%0A", "\n"), ("%3A", ":"), ("%2C", ","), ("%25", "%")):
        text = text.replace(code, letter)
    return text


def commands(findings: list[Finding]) -> list[tuple[str, dict[str, str], str]]:
    found = []
    for line in as_annotations(findings, 3).splitlines()[:-1]:
        match = COMMAND.match(line)
        assert match, line
        pairs = (pair.split("=", 1) for pair in (match[2] or "").split(",") if pair)
        found.append((match[1], {key: decoded(v) for key, v in pairs}, decoded(match[3])))
    return found


def test_texts_come_through_whatever_they_hold():
    wild = "100%25 ::error file=x,line=9::a\r\nb, c: d%0A"
    (only,) = commands([finding(Severity.STOP, file="a,b:c%.yaml", message=wild, help="")])
    level, properties, message = only
    assert (level, message) == ("error", wild)
    assert properties["file"] == "a,b:c%.yaml"
    assert properties == {
        "file": "a,b:c%.yaml",
        "line": "1",
        "col": "2",
        "title": "PIN101 slug",
    }


@pytest.mark.parametrize(
    ("severity", "level"),
    list(zip(Severity, ("error", "error", "warning", "notice"), strict=True)),
)
def test_weights_are_the_forge_s_levels(severity, level):
    assert commands([finding(severity)])[0][0] == level


def test_ten_are_shown_as_they_are():
    assert len(commands([finding(Severity.NOTE, line) for line in range(10)])) == 10


def test_of_eleven_nine_are_shown_and_two_counted_the_worst_first():
    many = [finding(Severity.NOTE, line) for line in range(1, 9)]
    many += [finding(Severity.WARN, 50), finding(Severity.STOP, 60), finding(Severity.FIX, 55)]
    shown = commands(many)
    assert len(shown) == 10
    assert [c[0] for c in shown[:4]] == ["error", "error", "warning", "notice"]
    assert [c[1]["line"] for c in shown[:3]] == ["60", "55", "50"]
    assert shown[-1][2].startswith("2 more findings (2 note)")


def test_accepted_findings_are_no_annotations():
    assert commands([replace(finding(Severity.WARN), accepted="known")]) == []


def test_paths_count_from_the_top_of_the_checkout(small_book, monkeypatch):
    (small_book / "cables" / "twin-16.yaml").write_text("schema: 1\n", "utf-8")
    monkeypatch.setenv("GITHUB_WORKSPACE", str(small_book.parent))
    monkeypatch.chdir(small_book)
    first = loombook("check", "--format", "annotations").output.splitlines()[0]
    assert "file=book/cables/twin-16.yaml," in first
    monkeypatch.delenv("GITHUB_WORKSPACE")
    first = loombook("check", "--format", "annotations").output.splitlines()[0]
    assert "file=cables/twin-16.yaml," in first


def test_what_is_not_yet_known_is_no_error_and_comes_behind_what_is():
    thin = replace(finding(Severity.STOP, message="nobody measured it"), says="not yet known")
    wrong = finding(Severity.FIX, message="it is wrong")
    assert [(level, text[:5]) for level, _, text in commands([thin, wrong])] == [
        ("error", "it is"),
        ("warning", "nobod"),
    ]


def test_what_is_not_yet_known_is_told_and_counted_apart():
    thin = replace(finding(Severity.STOP), says="not yet known")
    assert finding_text(thin).startswith("a.yaml:1:2: stop (not yet known) PIN101")
    said = summary([thin, finding(Severity.WARN)], 3)
    assert said.startswith("3 records checked: nothing to mend (1 stop, 1 warn, 1 of them not yet")
    assert summary([finding(Severity.STOP)], 3).startswith("3 records checked: 1 to mend (1 stop)")
