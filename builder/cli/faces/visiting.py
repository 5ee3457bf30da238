"""What can be asked of `visit`."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

from builder.cli.faces.options import book_option

_file = click.argument("file", type=click.Path(path_type=Path))
_day = click.option(
    "--date",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DAY",
    help="The day, YYYY-MM-DD.  [default: today]",
)
_dry_run = click.option(
    "--dry-run", is_flag=True, help="Say what would be written, and write nothing."
)


@click.group()
def visit() -> None:
    """Put right a visit that is in the book: it is written once, and nothing of it is deleted."""


@visit.command()
@_file
@click.option(
    "--at",
    "place",
    default="",
    metavar="A.7",
    help="What it read at this place alone, which was measured wrongly; the rest of it counts on.",
)
@click.option("--because", required=True, metavar="TEXT", help="Why; its vehicle's page says it.")
@_day
@_dry_run
@book_option
def withdraw(
    file: Path, place: str, because: str, day: datetime | None, dry_run: bool, book: Path | None
) -> None:
    """Take a visit back: it stays in the book, and counts no longer.

    FILE is the visit's file, or its id. Says which grades and plans change by it. With --at its
    vehicle's record says that at this place the visit was wrong, and by which reading.

    \b
    loombook visit withdraw bay-four-sound-2024-10-02-plum-9 --because "its meter was broken"
    loombook visit withdraw bay-four-sound-2024-10-02-plum-9 --at A.7 --because "the probe slipped"
    """
    from builder.cli import visiting

    visiting.withdraw(file, place, because, day, dry_run, book)


@visit.command()
@_file
@click.option("--plug", "plugs", multiple=True, metavar="ID", help="This plug alone; repeatable.")
@click.option("--because", default="", metavar="TEXT", help="How it was found.")
@_day
@_dry_run
@book_option
def turn(
    file: Path,
    plugs: tuple[str, ...],
    because: str,
    day: datetime | None,
    dry_run: bool,
    book: Path | None,
) -> None:
    """Turn a visit that was counted from the other face of its plugs.

    Each cavity counts as its mirror in the plug's housing from then on. What was typed stays as it
    was typed; turned once more, the visit is as before.

    \b
    loombook visit turn bay-four-sound-2024-10-02-plum-9 --plug A
    """
    from builder.cli import visiting

    visiting.turn(file, plugs, because, day, dry_run, book)
