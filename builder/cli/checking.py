"""`loombook check`."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import opened, progress
from builder.cli.forms import Form
from builder.findings import Finding
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.lent import own_findings
from builder.reporting import report


def check(book: Path | None, form: Form, everything: bool, public: bool, as_of: str) -> None:
    """Print the findings of a book; exit 1 when one fails."""
    checked = check_book(opened(book, public, as_of), progress("checking"))
    findings, left_out = own_findings(checked.book, checked.findings)
    if everything or form == "json":
        findings, left_out = list(checked.findings), Counter()
    for lender, count in left_out.items():
        said = "1 warning or note" if count == 1 else f"{count} warnings and notes"
        click.echo(f"{shown_path(lender)}: {said} of this shared book, shown with --all", err=True)
    findings = _for_forge(findings) if form == "annotations" else findings
    click.echo(report(findings, checked.records, form), nl=False)
    if checked.failing:
        raise SystemExit(1)


def _for_forge(findings: Iterable[Finding]) -> list[Finding]:
    """The findings with paths from the top of the checkout, wherever the command stands in it."""
    top = Path(os.environ.get("GITHUB_WORKSPACE") or Path.cwd()).resolve()
    return [replace(finding, file=_from_top(finding.file, top)) for finding in findings]


def _from_top(shown: str, top: Path) -> str:
    try:
        return Path(shown).resolve().relative_to(top).as_posix()
    except ValueError:
        return shown  # of another checkout: no line of this one to show it at
