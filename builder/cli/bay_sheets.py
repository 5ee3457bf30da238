"""`loombook new bay-sheet`: an empty bay sheet to fill by hand."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import book_option, opened
from builder.cli.old_names import called_now
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.empty_sheets import sheet_for, write_sheet


@click.command("bay-sheet", short_help="Write an empty bay sheet of a job or vehicle.")
@click.argument("name", metavar="JOB|VEHICLE")
@click.option("--converter", metavar="ID", help="Of a vehicle: the plan with this converter only.")
@click.option(
    "--output",
    "-o",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Where to write it.  [default: bay-sheet-NAME.yaml here]",
)
@click.option("--dry-run", is_flag=True, help="Print the sheet instead of writing it.")
@book_option
def bay_sheet(
    name: str, converter: str | None, output: Path | None, dry_run: bool, book: Path | None
) -> None:
    """Write an empty bay sheet of a job or a vehicle, to be filled by hand.

    It has a line for each reading that the sheet asks for. What you read is brought into the book
    by: loombook evidence add. Nothing is overwritten.

    \b
    loombook new bay-sheet tansy-subwoofer
    loombook new bay-sheet ostrel-tansy-2017-hatch-base --converter cvn-2a
    """
    whole = opened(book)
    name = called_now(whole, name, "vehicle", "job")
    converter = called_now(whole, converter, "converter") if converter else None
    try:
        sheet = sheet_for(whole, name, converter, output)
        if dry_run:
            click.echo(sheet.text, nl=False)
            return
        write_sheet(sheet)
    except (NoSuchRecordError, FileExistsError) as error:
        raise click.UsageError(str(error)) from error
    shown = shown_path(sheet.path)
    click.echo(f"{shown} is written: {sheet.lines} lines to fill")
    click.echo(f"next: loombook evidence add {shown}")
