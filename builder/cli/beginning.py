"""`loombook begin`: work on a car begins, and its plan stands from then on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import click

from builder.book import begun_path, shown_path
from builder.cli.books import book_option, opened_to_write
from builder.cli.old_names import called_now
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
from builder.reporting import finding_text


@click.command()
@click.argument("job")
@click.option("--by", required=True, metavar="ID", help="Who begins it: your shop or handle.")
@click.option(
    "--date",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DAY",
    help="The day, YYYY-MM-DD.  [default: today]",
)
@click.option("--dry-run", is_flag=True, help="Say what would be written, and write nothing.")
@book_option
def begin(job: str, by: str, day: date | None, dry_run: bool, book: Path | None) -> None:
    """Begin the work of a job: from then on its plan stands.

    Writes down what is joined, under begun in the job's record, and beside it the records that the
    plan is made from, as they are now. Results and later readings change how far the job is, and
    never its pack, its steps or its way back. Only a job with a tap plan is begun, and only once;
    the exit code is 1 when it is not.

    An old job with results is begun on the day of the first, and marked as reconstructed.

    \b
    loombook begin tansy-subwoofer --by alder-pit-audio
    """
    whole = opened_to_write(book, dry_run)
    name = called_now(whole, job, "job")
    said = (day or date.today()).strftime("%Y-%m-%d")
    try:
        begun = begun_job(whole, name, by, said)
        if not dry_run:
            write_begun(begun)
    except CannotBeginError as error:
        click.echo(finding_text(error.finding))
        raise SystemExit(1) from error
    except NoSuchRecordError as error:
        raise click.UsageError(str(error)) from error
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
    if not dry_run:
        yield f"next: loombook new bay-sheet {name}"
