"""What can be asked of `next`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_argument, book_option, format_option, one_book
from builder.cli.forms import Form


@click.command(name="next")
@book_argument
@book_option
@click.option(
    "--limit",
    type=click.IntRange(1, 10_000),
    default=10,
    show_default=True,
    help="How many pins to list.",
)
@click.option("--make", default="", metavar="NAME", help="Only cars of this maker.")
@format_option
def measure_next_command(
    named: Path | None, book: Path | None, limit: int, make: str, form: Form
) -> None:
    """List the readings that would raise the book most, best first.

    Before all stand the jobs that the book speaks against since they were begun, each with the
    reading to take when the car is back. Then come pins that plans and jobs wait for: the more of
    them a pin opens for each minute of a visit to the car, the further up it stands. Last are pins
    that plans rest on and that are not proven yet.

    \b
    loombook next
    loombook next --make Ostrel --limit 3
    """
    from builder.cli import measuring_next

    measuring_next.measure_next_command(one_book(named, book), limit, make, form)
