"""What can be asked of `import` and `new table`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option
from builder.cli.forms import Form
from builder.cli.known_ids import completing


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
    missing are named and do not stand in the way. No record is overwritten without --replace. The
    exit code is 1 when nothing is written, 3 when the record is and has something to mend.

    \b
    loombook new table car.xlsx
    loombook import car.xlsx --dry-run
    loombook import car.xlsx
    """
    from builder.cli import importing

    importing.import_file(file, book, dry_run, replacing, as_is, form)


@click.command("table", short_help="Write a table to fill, or a record as a filled one.")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False), metavar="FILE.xlsx|csv")
@click.option(
    "--of",
    "vehicle",
    metavar="VEHICLE",
    shell_complete=completing("vehicle"),
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
    from builder.cli import importing

    importing.table(file, vehicle, book)
