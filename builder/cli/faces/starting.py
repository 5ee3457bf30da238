"""What can be asked of `start`."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), metavar="FOLDER")
@click.option("--name", metavar="TEXT", help="What the site is called.  [default: the folder's]")
@click.option(
    "--shared",
    "--book",
    "-b",
    "shared",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    metavar="BOOK",
    help="A shared book whose records belong to it too.  [default: the book where you stand]",
)
@click.option("--alone", is_flag=True, help="Take no shared book in, not even the one here.")
def start(folder: Path, name: str | None, shared: Path | None, alone: bool) -> None:
    """Make a shop's own book: settings, folders, templates, and what a forge needs.

    Records that anybody may see and private ones stand apart in it; a shared book beside it can
    be part of it. What is there already is left as it is, so that it can be run again.

    \b
    loombook start ../our-book
    loombook start ../our-book --shared ../common/pinouts --name "North bay"
    """
    from builder.cli import starting

    starting.start(folder, name, shared, alone)
