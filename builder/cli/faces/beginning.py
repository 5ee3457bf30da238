"""What can be asked of `begin`."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

from builder.cli.faces.options import book_option
from builder.cli.known_ids import completing


@click.command()
@click.argument("job", shell_complete=completing("job"))
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
def begin(job: str, by: str, day: datetime | None, dry_run: bool, book: Path | None) -> None:
    """Begin the work of a job: from then on its plan stands.

    Writes down what is joined, under begun in the job's record, and beside it the records that the
    plan is made from, as they are now. Results and later readings change how far the job is, and
    never its pack, its steps or its way back. Only a job with a tap plan is begun, and only once;
    the exit code is 1 when it is not.

    An old job with results is begun on the day of the first, and marked as reconstructed.

    \b
    loombook begin tansy-subwoofer --by alder-pit-audio
    """
    from builder.cli import beginning

    beginning.begin(job, by, day, dry_run, book)
