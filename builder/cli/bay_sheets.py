"""`loombook new bay-sheet`: an empty bay sheet to fill by hand."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import opened
from builder.cli.exit_codes import REFUSED
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.empty_sheets import sheet_for, write_sheet


def bay_sheet(
    name: str, converter: str | None, output: Path | None, dry_run: bool, book: Path | None
) -> None:
    """Write an empty bay sheet."""
    whole = opened(book)
    name = called_now(whole, name, "vehicle", "job")
    converter = called_now(whole, converter, "converter") if converter else None
    try:
        sheet = sheet_for(whole, name, converter, output)
        if not sheet.lines:
            click.echo(f"no reading of {name} is waited for, so no sheet is written")
            click.echo(f"what is not known is found by looking: loombook show {name}")
            raise SystemExit(REFUSED)
        if dry_run:
            click.echo(sheet.text, nl=False)
            return
        write_sheet(sheet)
    except (NoSuchRecordError, FileExistsError) as error:
        raise no_answer(error) from error
    shown = shown_path(sheet.path)
    click.echo(f"{shown} is written: {sheet.lines} lines to fill")
    click.echo(f"next: loombook evidence add {shown}")
