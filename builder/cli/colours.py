"""Colour in a terminal: the word that weighs a finding, so that a stop is seen from afar.

Nothing is said by colour alone. It is left out where nobody looks (a pipe or a file: click takes it
out), where `NO_COLOR` is set to anything (https://no-color.org, from memory), and on a terminal
that says it can do nothing (`TERM=dumb`).
"""

from __future__ import annotations

import os
from typing import Any, Final

import click

from builder.findings import Finding, Severity
from builder.reporting import finding_text

_DUMB: Final = "dumb"
_STYLES: Final[dict[Severity, dict[str, Any]]] = {
    Severity.STOP: {"fg": "red", "bold": True},
    Severity.FIX: {"fg": "red"},
    Severity.WARN: {"fg": "yellow"},
    Severity.NOTE: {"fg": "cyan"},
}


def painted(word: str, severity: Severity) -> str:
    """Return the word in the colour of a severity, or as it is."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == _DUMB:
        return word
    return click.style(word, **_STYLES[severity])


def told(finding: Finding) -> str:
    """Return a finding as a terminal shows it."""
    return finding_text(finding, painted)
