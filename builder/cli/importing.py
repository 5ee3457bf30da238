"""`loombook import` and `loombook new table`: cars that come and go as tables."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import book_option, opened, opened_to_write
from builder.cli.forms import Form
from builder.cli.known_ids import complete_vehicles
from builder.cli.old_names import called_now
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.creating import NewRecord, next_steps
from builder.pipeline.changing.importing import ImportedRecord, import_table, write_imported
from builder.pipeline.changing.record_files import ChangedMeanwhileError
from builder.pipeline.changing.sheet_files import NotATableNameError, rows_of_vehicle, write_table
from builder.reporting import as_json, finding_text


@click.command("import", short_help="Make a vehicle record of a filled table.")
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option(
    "--into",
    "--book",
    "-b",
    "book",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Folder of records.  [default: ./pinouts, else this folder]",
)
@click.option("--dry-run", is_flag=True, help="Print the record instead of writing it.")
@click.option("--replace", "replacing", is_flag=True, help="Replace the record of that name.")
@click.option(
    "--as-is",
    is_flag=True,
    help="Write it although rules find fault with it: the figures are right as typed.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    help="How findings are printed.  [default: text]",
)
def import_file(
    file: Path, book: Path | None, dry_run: bool, replacing: bool, as_is: bool, form: Form
) -> None:
    """Make a vehicle record of a filled table: an .xlsx or a .csv file.

    The table is that of `loombook new table`, or your own with headings of that meaning. Every
    finding names its cell. Nothing is written while the table has a stop or fix; readings that are
    missing are named and do not stand in the way. No record is overwritten without --replace.

    \b
    loombook new table car.xlsx
    loombook import car.xlsx --dry-run
    loombook import car.xlsx
    """
    try:
        record = import_table(opened_to_write(book, dry_run), file, replacing, as_is)
        if not record.held and not dry_run:
            write_imported(record)
    except (FileExistsError, ChangedMeanwhileError) as error:
        raise click.UsageError(str(error)) from error
    if form == "json":
        click.echo(as_json(record.findings, 1), nl=False)
    else:
        _report(record, dry_run)
    if any(finding.fails_check for finding in record.findings):
        raise SystemExit(1)


def _report(record: ImportedRecord, dry_run: bool) -> None:
    if dry_run:
        click.echo(record.text, nl=False)
    elif not record.held and record.path is not None:
        click.echo(f"{shown_path(record.path)} is written")
    for finding in record.findings:
        click.echo(finding_text(finding), err=dry_run)
    if record.held:
        click.echo(_why_held(record), err=True)
    elif record.path is not None:
        click.echo("next:", err=dry_run)
        made = NewRecord("vehicle", record.path, record.text, record.data, record.findings)
        for number, step in enumerate(next_steps(made), 1):
            click.echo(f"  {number}. {step}", err=dry_run)


def _why_held(record: ImportedRecord) -> str:
    failing = sum(finding.fails_check for finding in record.findings)
    if record.text and not any(
        f.rule_id.startswith("TAB") for f in record.findings if f.fails_check
    ):
        return (
            f"nothing is written: {failing} to mend in the table; when it is right as typed, "
            "write it with --as-is"
        )
    return f"nothing is written: {failing} to mend in the table"


@click.command("table", short_help="Write a table to fill, or a record as a filled one.")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE.xlsx|csv")
@click.option(
    "--of",
    "vehicle",
    metavar="VEHICLE",
    shell_complete=complete_vehicles,
    help="Fill it with this vehicle of the book.",
)
@book_option
def table(file: Path, vehicle: str | None, book: Path | None) -> None:
    """Write a table to fill in a spreadsheet: one car, its pins, its readings.

    An .xlsx file has the sheets car, pins and help, with words to choose from; a .csv file has the
    car's fields in rows that begin with #, then the pins. Nothing is overwritten.

    \b
    loombook new table car.xlsx
    loombook new table tansy.xlsx --of ostrel-tansy-2017-hatch-base
    """
    try:
        whole = opened(book) if vehicle else None
        named = called_now(whole, vehicle, "vehicle") if whole and vehicle else None
        filled = rows_of_vehicle(whole, named) if whole and named else None
        write_table(file, filled)
    except (NotATableNameError, NoSuchRecordError, FileExistsError) as error:
        raise click.UsageError(str(error)) from error
    click.echo(f"{shown_path(file)} is written")
    if filled is not None and filled.lost:
        click.echo(f"  not in it, for no table holds it: {', '.join(filled.lost)}")
    click.echo(f"next: loombook import {shown_path(file)} --dry-run")
