"""What can be asked of `comeback`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option, format_option
from builder.cli.forms import Form
from builder.cli.known_ids import completing
from builder.planning.comeback.words import SYMPTOMS, Symptom


@click.command()
@click.argument("job", metavar="JOB", shell_complete=completing("job"))
@click.argument("symptom", type=click.Choice(SYMPTOMS), required=False, metavar="[SYMPTOM]")
@click.option(
    "--answer",
    "-a",
    "answers",
    multiple=True,
    metavar="READING=FIGURE",
    help="One answer; repeat it for each: a figure, open, yes, no, or skip.",
)
@click.option("--faults", is_flag=True, help="Every single fault, with the line that finds it.")
@click.option("--line", metavar="ID", help="A line of the bay sheet that failed, by its name.")
@book_option
@format_option
def comeback(
    job: str,
    symptom: Symptom | None,
    answers: tuple[str, ...],
    line: str | None,
    faults: bool,
    book: Path | None,
    form: Form,
) -> None:
    """A car is back: ask for the cheapest reading next, until the cause is known.

    Without SYMPTOM it lists what the customer may say, with --line what makes a line of the bay
    sheet fail, with --faults which line finds each fault before trim goes home. With SYMPTOM
    alone it asks, one reading at a time; with --answer, or as JSON, it says the next reading and
    ends. The exit code is 0 when one thing is left to do, else 1.

    \b
    loombook comeback tansy-subwoofer
    loombook comeback tansy-subwoofer dead
    loombook comeback tansy-subwoofer dead -a idle-current=0.1 -a sub-amp-supply-drop=12.4
    loombook comeback tansy-subwoofer --line sub-amp-turn-on-radio-on
    loombook comeback tansy-subwoofer --faults
    """
    from builder.cli import comeback

    comeback.comeback(job, symptom, answers, line, faults, book, form)
