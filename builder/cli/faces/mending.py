"""What can be asked of `mend` and `tidy`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option

_paths_argument = click.argument(
    "paths", nargs=-1, type=click.Path(path_type=Path), metavar="[PATHS]..."
)


@click.command()
@_paths_argument
@book_option
@click.option("--dry-run", is_flag=True, help="Print what would change as a diff, write nothing.")
@click.option(
    "--visits",
    is_flag=True,
    help="Only move what was measured out of vehicles' records into files of their own.",
)
def mend(paths: tuple[Path, ...], book: Path | None, dry_run: bool, visits: bool) -> None:
    """Type what the findings say where no second meaning is possible.

    Misspelt keys and words, colours, units and decimal commas in figures, dates, repeated items,
    the order of keys and the schema line. A visit that stands in a vehicle's record gets a file of
    its own under visits/, as it was typed, comments too, so that two shops never write into one
    file; grades stay as they are, and where they would not, the visits are left alone and named.
    Whatever needs judgement is left to you: the exit code
    is 1 when the check would still fail and nothing was written, 3 when something was, and with
    --dry-run 1 when there is something to mend.

    Place, time and device are taken out of photos that records name; the pictures stay bit for bit.

    PATHS are record files or folders of the book; without any, the whole book. Records of a
    shared book that this one only draws on are left alone: mend them there, with --book.

    \b
    loombook mend
    loombook mend pinouts/vehicles/ostrel --dry-run
    loombook mend --visits
    """
    from builder.cli import mending

    if visits:
        mending.move_visits(paths, book, dry_run)
    else:
        mending.mend(paths, book, dry_run)


@click.command()
@_paths_argument
@book_option
@click.option("--check", is_flag=True, help="Name what differs by file and line, write nothing.")
def tidy(paths: tuple[Path, ...], book: Path | None, check: bool) -> None:
    """Put records in the house style: order of keys, indentation, spaces, line ends.

    Comments and data stay. A file that cannot be read is left alone and named, and so is a shared
    book that this one only draws on. The exit code is 1 when a file was refused, 3 when
    others were written beside it, and with --check 1 when one differs from the house style.

    \b
    loombook tidy
    loombook tidy --check pinouts/housings
    """
    from builder.cli import mending

    mending.tidy(paths, book, check)
