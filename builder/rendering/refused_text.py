"""What is said of a plan whose record cannot be read at all: which, where and why."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import indent
from typing import Any, Final

from builder.findings import Finding
from builder.rendering.terminal import PLAN_WORDS
from builder.reporting import finding_data, finding_text

_KIND: Final = "no_plan"


def refused_text(name: str, converter: str | None, findings: Sequence[Finding]) -> str:
    """Return the refusal for a terminal: what was asked for, then each finding."""
    asked = f"{name}  ×  {converter}" if converter else name
    found = "\n".join(indent(finding_text(finding), "  ") for finding in findings)
    return f"{PLAN_WORDS[_KIND]}  {asked}\n\nWhy this is not a tap plan\n{found}\n"


def refused_data(name: str, converter: str | None, findings: Sequence[Finding]) -> dict[str, Any]:
    """Return the same as plain data; there is nothing else to say of such a plan."""
    refusals = [
        {
            "decision": f"{finding.severity.word} at {finding.place}",
            "because": f"{finding.rule_id}: {finding.message}",
            "source": finding.docs,
        }
        for finding in findings
    ]
    asked = {"job": name} if converter is None else {"vehicle": name, "converter": converter}
    found = [finding_data(finding) for finding in findings]
    return {"kind": _KIND, **asked, "refusals": refusals, "findings": found}
