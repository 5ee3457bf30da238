"""`loombook check`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.books import book_argument, opened, progress
from builder.pipeline.checking import check_book
from builder.reporting import FORMATS, report


@click.command()
@book_argument
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMATS),
    default="text",
    show_default=True,
    help="text for people, json for programs, github for annotations on a pull request.",
)
def check(book: Path | None, form: str) -> None:
    """Check every record: its shape, electrical law, and the other records.

    Each finding names file:line:column, what is wrong, and what to type. The exit code is 1
    when a stop or fix is left that its record does not accept with a reason.

    \b
    loombook check
    loombook check my-book --format json
    """
    checked = check_book(opened(book), progress("checking"))
    click.echo(report(checked.findings, checked.records, form), nl=False)
    if checked.failing:
        raise SystemExit(1)
