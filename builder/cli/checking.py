"""`loombook check`."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Final

import click

from builder.book import shown_path
from builder.cli.books import as_of_option, book_argument, opened, progress, public_option
from builder.cli.forms import Form
from builder.findings import Finding
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.lent import own_findings
from builder.reporting import FORMATS, report

_OLD_NAME: Final = "github"


class FormatChoice(click.Choice[str]):
    """The formats of `check`; the name that one had is taken too, so that a forge's jobs go on."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return the format of a name."""
        if value == _OLD_NAME:
            click.echo("--format github is called --format annotations now", err=True)
            value = "annotations"
        return super().convert(value, param, ctx)


@click.command()
@book_argument
@click.option(
    "--format",
    "form",
    type=FormatChoice(FORMATS),
    default="text",
    show_default=True,
    help="text for people, json for programs, annotations for remarks on a pull request.",
)
@click.option(
    "--all",
    "everything",
    is_flag=True,
    help="Print the warnings and notes of a shared book too, not only their number.",
)
@public_option
@as_of_option
def check(book: Path | None, form: Form, everything: bool, public: bool, as_of: str) -> None:
    """Check every record: its shape, electrical law, and the other records.

    Each finding names file:line:column, what is wrong, and what to type. The exit code is 1
    when a stop or fix is left that its record does not accept with a reason. Of a shared book
    that this one draws on, what fails is printed, and the rest counted.

    \b
    loombook check
    loombook check my-book --format json
    loombook check --as-of today
    """
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
