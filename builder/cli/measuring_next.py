"""`loombook next`: what to measure next."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.answering import format_option
from builder.cli.books import book_argument, opened
from builder.cli.forms import Form
from builder.pipeline.answers.measure_next import measure_next, next_data
from builder.pipeline.answers.recalls import recall_data, recalled_jobs
from builder.rendering.job_state_text import recalls_text
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

    Before all stand the jobs that the book speaks against since they were begun, each with the
    reading to take when the car is back. Then come pins that plans and jobs wait for: the more of
    them a pin opens for each minute of a visit to the car, the further up it stands. Last are pins
    that plans rest on and that are not proven yet.

    \b
    loombook next
    loombook next --make Ostrel --limit 3
    """
    whole = opened(book)
    found, recalled = measure_next(whole, make)[:limit], recalled_jobs(whole, make)
    if form == "json":
        pins, jobs = [next_data(pin) for pin in found], [recall_data(made) for made in recalled]
        click.echo(json.dumps({"next": pins, "recalls": jobs}, indent=2, ensure_ascii=False))
    else:
        recalls = [(made.parts.job, made.standing.recalls) for made in recalled]
        click.echo("".join(recalls_text(*each) for each in recalls), nl=False)
        click.echo(measure_next_text(found), nl=False)
