"""`loombook visit`: a visit taken back, or turned to the other face."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path

import click

from builder.book import Book
from builder.cli.books import opened_to_write
from builder.cli.colours import told
from builder.cli.days import day_said
from builder.cli.evidence import change_lines
from builder.cli.exit_codes import end_with
from builder.pipeline.changing import visit_edits
from builder.pipeline.changing.record_files import ChangedMeanwhileError
from builder.pipeline.changing.visit_edits import CannotEditVisitError, EditedVisit


def withdraw(
    file: Path, place: str, because: str, day: datetime | None, dry_run: bool, book: Path | None
) -> None:
    """Withdraw a visit, or what it read at one place, and print what changes by it."""
    said, where = day_said(day), place.strip().upper()
    if where:
        _do(
            book,
            dry_run,
            f"set aside at {where}",
            lambda it: visit_edits.set_aside(it, file, where, because, said),
        )
    else:
        _do(book, dry_run, "withdrawn", lambda it: visit_edits.withdrawn(it, file, because, said))


def turn(
    file: Path,
    plugs: Sequence[str],
    because: str,
    day: datetime | None,
    dry_run: bool,
    book: Path | None,
) -> None:
    """Turn a visit, and print what changes by it."""
    said, named = day_said(day), [plug.upper() for plug in plugs]
    _do(book, dry_run, "turned", lambda it: visit_edits.turned(it, file, named, because, said))


def _do(book: Path | None, dry_run: bool, done: str, edit: Callable[[Book], EditedVisit]) -> None:
    try:
        edited = edit(opened_to_write(book, dry_run))
    except CannotEditVisitError as error:
        raise click.UsageError(str(error)) from error
    write_and_tell(edited, done, dry_run)


def write_and_tell(edited: EditedVisit, done: str, dry_run: bool) -> None:
    """Write a visit unless it is only tried, and print what changes by it."""
    try:
        if not dry_run:
            visit_edits.write_edited(edited)
    except ChangedMeanwhileError as error:
        raise click.ClickException(str(error)) from error
    click.echo(f"{edited.file.shown}: {'would be ' if dry_run else ''}{done}")
    for line in change_lines(edited.change):
        click.echo(line)
    if edited.findings:
        click.echo("to mend or to know since:")
        for finding in edited.findings:
            click.echo(told(finding))
    end_with(edited.findings, written=not dry_run)
