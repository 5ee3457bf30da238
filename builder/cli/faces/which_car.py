"""What can be asked of `which`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option, format_option
from builder.cli.forms import Form


@click.command()
@click.argument("make")
@click.argument("model")
@click.argument("year", required=False, type=click.IntRange(1900, 2100))
@click.option(
    "--ask/--list",
    "ask",
    default=None,
    help="Ask one question after another, or list them all.  [default: ask in a terminal]",
)
@book_option
@format_option
def which(
    make: str, model: str, year: int | None, ask: bool | None, book: Path | None, form: Form
) -> None:
    """Find out which record is your car, with the fewest and cheapest questions.

    The exit code is 0 when one record is left, 1 when several are.

    \b
    loombook which wexlow quern 2018
    loombook which quillan lovage --list
    """
    from builder.cli import which_car

    which_car.which(make, model, year, ask, book, form)
