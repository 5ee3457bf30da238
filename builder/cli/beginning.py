"""`loombook begin`: work on a car begins, and its plan stands from then on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import click

from builder.book import begun_path, shown_path
from builder.cli.books import opened_to_write
from builder.cli.colours import told
from builder.cli.days import day_said
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.cli.sentences import disk_sentence
from builder.editing import UneditableError
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.beginning import (
    BegunJob,
    CannotBeginError,
    begun_job,
    write_begun,
)
from builder.pipeline.changing.record_files import ChangedMeanwhileError


def begin(job: str, by: str, day: datetime | None, dry_run: bool, book: Path | None) -> None:
    """Begin a job, and print what is joined; exit 1 when it cannot be begun."""
    whole = opened_to_write(book, dry_run)
    name = called_now(whole, job, "job")
    said = day_said(day)
    try:
        begun = begun_job(whole, name, by, said)
        if not dry_run:
            write_begun(begun)
    except CannotBeginError as error:
        click.echo(told(error.finding))
        raise SystemExit(1) from error
    except NoSuchRecordError as error:
        raise no_answer(error) from error
    except (UneditableError, ChangedMeanwhileError) as error:
        raise click.ClickException(str(error)) from error
    except OSError as error:
        raise click.ClickException(f"{disk_sentence(error)}; the job is not begun") from error
    click.echo("\n".join(_lines(begun, dry_run)))


def _lines(job: BegunJob, dry_run: bool) -> Iterator[str]:
    name, begun = job.file.path.stem, job.begun
    verb = "would be begun" if dry_run else "is begun"
    marked = ", reconstructed from its results" if begun.reconstructed else ""
    yield f"{name} {verb} on {begun.date} by {begun.by}{marked}; joined to:"
    for pin in begun.as_built.pins:
        yield f"  {pin.at}  {pin.wire or 'colour not recorded'}, {pin.place}: {pin.purpose}"
    files = [job.file.shown, *([shown_path(begun_path(job.file.path))] if job.frozen else [])]
    yield f"{'it would write' if dry_run else 'written:'} {', '.join(files)}"
    if job.why_not:
        yield f"no file of the records beside it: {job.why_not}"
    if not dry_run:
        yield f"next: loombook new bay-sheet {name}"
