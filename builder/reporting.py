"""Findings as text for a person, as JSON for a program, or as annotations for a forge."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Sequence

from builder.findings import Finding, Severity

ANNOTATIONS_SHOWN = 10  # what the common forge shows for one step


Paint = Callable[[str, Severity], str]
"""What makes a word stand out by the weight of its finding."""


def _plain(word: str, severity: Severity) -> str:
    return word


def report(findings: Sequence[Finding], records: int, form: str, paint: Paint = _plain) -> str:
    """Return the whole report as text, json or annotations, ending in a newline; text is painted.

    Raises:
        KeyError: the format is not known.
    """
    writers: dict[str, Callable[[Sequence[Finding], int], str]] = {
        "text": lambda found, count: as_text(found, count, paint),
        "json": as_json,
        "annotations": as_annotations,
    }
    return writers[form](findings, records)


def as_text(findings: Sequence[Finding], records: int, paint: Paint = _plain) -> str:
    """One block a finding, then a line that counts them."""
    return "".join(f"{finding_text(finding, paint)}\n" for finding in findings) + (
        f"{summary(findings, records)}\n"
    )


def finding_text(finding: Finding, paint: Paint = _plain) -> str:
    """`file:line:col: severity ID what is wrong`, what to type, and the rule's page.

    Of a table it is `file:sheet!cell:` instead.
    """
    lines = [f"{finding.place}: {_weight(finding, paint)} {finding.rule_id} {finding.message}"]
    if finding.accepted:
        lines.append(f"  accepted: {finding.accepted}")
    elif finding.help:
        lines.append(f"  help: {finding.help}")
        lines += [f"    {line}" for line in finding.drawing]
    lines.append(f"  docs: {finding.docs}")
    return "\n".join(lines)


def _weight(finding: Finding, paint: Paint) -> str:
    """The word of its weight, and why a grave one does not fail the check."""
    if finding.accepted:
        return f"{finding.severity.word} (accepted)"
    word = paint(finding.severity.word, finding.severity)
    waits = finding.stands_open and not finding.fails_check
    return f"{word} ({finding.says})" if waits else word


def summary(findings: Sequence[Finding], records: int) -> str:
    """One sentence: how many records, how many findings of each weight, whether it passes."""
    open_findings = [finding for finding in findings if finding.accepted is None]
    parts = [_by_weight(open_findings)] if open_findings else []
    accepted = len(findings) - len(open_findings)
    if accepted:
        parts.append(f"{accepted} accepted")
    waiting = sum(finding.stands_open and not finding.fails_check for finding in findings)
    if waiting:
        parts.append(f"{waiting} of them not yet known: plans wait for it, the check does not")
    failing = sum(finding.fails_check for finding in findings)
    verdict = f"{failing} to mend" if failing else "nothing to mend"
    sure = sum(finding.fails_check and finding.fix is not None for finding in findings)
    if sure:
        verdict += f", {sure} of them with loombook mend"
    return f"{records} records checked: {verdict} ({', '.join(parts) or 'no findings'})"


def _by_weight(findings: Sequence[Finding]) -> str:
    counts = Counter(finding.severity for finding in findings)
    return ", ".join(f"{counts[weight]} {weight.word}" for weight in Severity if counts[weight])


def as_json(findings: Sequence[Finding], records: int) -> str:
    """The findings as a JSON document."""
    document = {
        "records": records,
        "failing": sum(finding.fails_check for finding in findings),
        "findings": [finding_data(finding) for finding in findings],
    }
    return json.dumps(document, indent=2, ensure_ascii=False) + "\n"


def finding_data(finding: Finding) -> dict[str, object]:
    """One finding as plain data; only one of a table has a `cell`."""
    return {
        "file": finding.file,
        "line": finding.line,
        "column": finding.column,
        "severity": finding.severity.word,
        "rule": finding.rule_id,
        "slug": finding.slug,
        "message": finding.message,
        "help": finding.help,
        "docs": finding.docs,
        "path": list(finding.path),
        "accepted": finding.accepted,
        "says": finding.says,
        "fixable": finding.fix is not None,
        **({"cell": finding.cell} if finding.cell else {}),
        **({"drawing": list(finding.drawing)} if finding.drawing else {}),
    }


_LEVEL = {
    Severity.STOP: "error",
    Severity.FIX: "error",
    Severity.WARN: "warning",
    Severity.NOTE: "notice",
}


def _level(finding: Finding) -> str:
    """An error fails the check, so what is not yet known is at most a warning."""
    waits = finding.stands_open and not finding.fails_check
    return _LEVEL[Severity.WARN if waits else finding.severity]


def as_annotations(findings: Sequence[Finding], records: int) -> str:
    """Workflow commands: the most severe first, as many as are shown, the rest counted.

    Source: the forge's documentation of workflow commands (from memory) for the form; its note on
    limits (second-hand) for ten a step.
    """
    waiting = sorted(
        (finding for finding in findings if finding.accepted is None),
        key=lambda finding: (not finding.fails_check, finding.severity, finding.sort_key()),
    )
    shown, rest = waiting, waiting[ANNOTATIONS_SHOWN:]
    if rest:  # the count takes one of the places
        shown, rest = waiting[: ANNOTATIONS_SHOWN - 1], waiting[ANNOTATIONS_SHOWN - 1 :]
    lines = [_annotation(finding) for finding in shown]
    if rest:
        lines.append(f"::{_level(rest[0])}::{_escaped(_count_of_rest(rest))}")
    return "\n".join([*lines, summary(findings, records)]) + "\n"


def _count_of_rest(rest: Sequence[Finding]) -> str:
    return f"{len(rest)} more findings ({_by_weight(rest)}): run loombook check to see them all"


def _annotation(finding: Finding) -> str:
    title = _escaped(f"{finding.rule_id} {finding.slug}", in_property=True)
    place = _escaped(finding.file, in_property=True)
    message = _escaped(f"{finding.message}\n{finding.help}".strip())
    return (
        f"::{_level(finding)} file={place},line={finding.line},"
        f"col={finding.column},title={title}::{message}"
    )


def _escaped(text: str, in_property: bool = False) -> str:
    """Escape for a workflow command; in a property `:` and `,` count too."""
    text = text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")
    return text.replace(":", "%3A").replace(",", "%2C") if in_property else text
