"""`loombook wanted`: what to measure next."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.answering import format_option
from builder.cli.books import book_argument, opened
from builder.pipeline.asking.wanted import wanted_data, wanted_of_book
from builder.rendering.wanted_text import wanted_text


@click.command()
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
def wanted(book: Path | None, limit: int, make: str, form: str) -> None:
    """List the readings that would raise the book most, best first.

    First come pins that plans and jobs wait for: the more of them a pin opens, and the less effort
    its readings take, the further up it stands. Then pins that plans rest on and that are not
    proven yet.

    \b
    loombook wanted
    loombook wanted --make Ostrel --limit 3
    """
    found = wanted_of_book(opened(book), make)[:limit]
    if form == "json":
        pins = [wanted_data(pin) for pin in found]
        click.echo(json.dumps({"wanted": pins}, indent=2, ensure_ascii=False))
    else:
        click.echo(wanted_text(found), nl=False)
