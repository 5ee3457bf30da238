"""`loombook next`: what to measure next."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.answering import format_option
from builder.cli.books import book_argument, opened
from builder.cli.forms import Form
from builder.pipeline.answers.measure_next import measure_next, next_data
from builder.rendering.measure_next_text import measure_next_text


@click.command(name="next")
@book_argument
@click.option(
    "--limit",
    type=click.IntRange(1, 10_000),
    default=10,
    show_default=True,
    help="How many pins to list.",
)
@click.option("--make", default="", metavar="NAME", help="Only cars of this maker.")
@format_option
def measure_next_command(book: Path | None, limit: int, make: str, form: Form) -> None:
    """List the readings that would raise the book most, best first.

    First come pins that plans and jobs wait for: the more of them a pin opens for each minute of
    a visit to the car, the further up it stands. Then pins that plans rest on and that are not
    proven yet.

    \b
    loombook next
    loombook next --make Ostrel --limit 3
    """
    found = measure_next(opened(book), make)[:limit]
    if form == "json":
        pins = [next_data(pin) for pin in found]
        click.echo(json.dumps({"next": pins}, indent=2, ensure_ascii=False))
    else:
        click.echo(measure_next_text(found), nl=False)
