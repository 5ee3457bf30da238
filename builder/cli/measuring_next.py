"""`loombook next`: what to measure next."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.books import asked_of
from builder.cli.forms import Form
from builder.pipeline.answers.kept_wanted import measure_next
from builder.pipeline.answers.measure_next import next_data
from builder.pipeline.answers.recalls import recall_data, recalled_jobs
from builder.rendering.job_state_text import recalls_text
from builder.rendering.measure_next_text import measure_next_text


def measure_next_command(book: Path | None, limit: int, make: str, form: Form) -> None:
    """Print what to measure next."""
    whole = asked_of(book)
    found, recalled = measure_next(whole, make, limit), recalled_jobs(whole, make)
    if form == "json":
        pins, jobs = [next_data(pin) for pin in found], [recall_data(made) for made in recalled]
        click.echo(json.dumps({"next": pins, "recalls": jobs}, indent=2, ensure_ascii=False))
    else:
        recalls = [(made.parts.job, made.standing.recalls) for made in recalled]
        click.echo("".join(recalls_text(*each) for each in recalls), nl=False)
        click.echo(measure_next_text(found), nl=False)
