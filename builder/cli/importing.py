"""`loombook import` and `loombook new table`: cars that come and go as tables."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import opened, opened_to_write
from builder.cli.colours import told
from builder.cli.exit_codes import end_with
from builder.cli.forms import Form
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.creating import NewRecord, next_steps
from builder.pipeline.changing.importing import ImportedRecord, import_table, write_imported
from builder.pipeline.changing.record_files import ChangedMeanwhileError
from builder.pipeline.changing.sheet_files import NotATableNameError, rows_of_vehicle, write_table
from builder.reporting import as_json


def import_file(
    file: Path, book: Path | None, dry_run: bool, replacing: bool, as_is: bool, form: Form
) -> None:
    """Make a record of a table, and print its findings."""
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
    end_with(record.findings, written=not (record.held or dry_run))


def _report(record: ImportedRecord, dry_run: bool) -> None:
    if dry_run:
        click.echo(record.text, nl=False)
    elif not record.held and record.path is not None:
        click.echo(f"{shown_path(record.path)} is written")
    for finding in record.findings:
        click.echo(told(finding), err=dry_run)
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


def table(file: Path, vehicle: str | None, book: Path | None) -> None:
    """Write a table to fill, or a record as a filled one."""
    try:
        whole = opened(book) if vehicle else None
        named = called_now(whole, vehicle, "vehicle") if whole and vehicle else None
        filled = rows_of_vehicle(whole, named) if whole and named else None
        write_table(file, filled)
    except (NotATableNameError, NoSuchRecordError, FileExistsError) as error:
        raise no_answer(error) from error
    click.echo(f"{shown_path(file)} is written")
    if filled is not None and filled.lost:
        click.echo(f"  not in it, for no table holds it: {', '.join(filled.lost)}")
    click.echo(f"next: loombook import {shown_path(file)} --dry-run")
