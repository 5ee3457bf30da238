"""`loombook merge`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import opened_to_write
from builder.cli.colours import told
from builder.cli.exit_codes import REFUSED, end_with
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.editing import UneditableError
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.merging import (
    CannotMergeError,
    Merged,
    merged_records,
    shown_signatures,
    write_merged,
)
from builder.pipeline.changing.record_files import ChangedMeanwhileError


def merge(first: str, second: str, write: bool, book: Path | None) -> None:
    """Show one record made of two, and with `write` write it."""
    whole = opened_to_write(book, dry_run=not write)
    try:
        into, gone = (called_now(whole, name, "vehicle") for name in (first, second))
        merged = merged_records(whole, into, gone)
    except (NoSuchRecordError, CannotMergeError) as error:
        raise no_answer(error) from error
    except UneditableError as error:
        raise click.ClickException(str(error)) from error
    _tell(merged)
    if merged.differences:
        raise SystemExit(REFUSED)
    if write:
        _write(merged)
    else:
        click.echo(f"nothing is written yet: --write writes it and deletes {merged.gone.shown}")
    end_with(merged.findings, written=write)


def _tell(merged: Merged) -> None:
    click.echo(f"{merged.into.shown} takes from {merged.gone.shown}:")
    for line in merged.taken or ("nothing that it does not say already",):
        click.echo(f"  {line}")
    if merged.remarks:
        click.echo("and as comments at its end:")
        for line in merged.remarks:
            click.echo(f"  {line}")
    for each in merged.differences:
        click.echo(f"{each.place}: {each.ours} here, {each.theirs} there")
    if merged.differences:
        click.echo("nothing is merged: look which is right, and type it in both records")
    if merged.signatures:
        click.echo(f"to be signed again, since the car has another id: {shown_signatures(merged)}")
    for finding in merged.findings:
        click.echo(told(finding))


def _write(merged: Merged) -> None:
    try:
        write_merged(merged)
    except ChangedMeanwhileError as error:
        raise click.ClickException(str(error)) from error
    assert merged.settings is not None
    click.echo(f"{merged.into.shown} is written, {merged.gone.shown} is deleted")
    click.echo(f"{shown_path(merged.settings.path)} says that it is called {merged.into.path.stem}")
