"""What can be asked of `new bay-sheet`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option
from builder.cli.known_ids import completing


@click.command("bay-sheet", short_help="Write an empty bay sheet of a job or vehicle.")
@click.argument("name", metavar="JOB|VEHICLE", shell_complete=completing("vehicle", "job"))
@click.option(
    "--converter",
    metavar="ID",
    shell_complete=completing("converter"),
    help="Of a vehicle: the plan with this converter only.",
)
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

    It has a line for each reading that the sheet asks for; of a vehicle, for each that check or a
    plan still waits for, one state of the car after another. What you read is brought into the book
    by: loombook evidence add. Nothing is overwritten.

    \b
    loombook new bay-sheet tansy-subwoofer
    loombook new bay-sheet ostrel-tansy-2017-hatch-base --converter cvn-2a
    """
    from builder.cli import bay_sheets

    bay_sheets.bay_sheet(name, converter, output, dry_run, book)
