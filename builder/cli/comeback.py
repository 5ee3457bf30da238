"""`loombook comeback`: a car is back; which reading next, and what is wrong."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.books import book_option, opened
from builder.cli.netlist import no_circuit
from builder.cli.old_names import called_now
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.answers.returned import NoCircuitError, returned
from builder.planning.comeback.causes import Causes
from builder.rendering.comeback_text import causes_text


@click.command()
@click.argument("job", metavar="JOB")
@click.option(
    "--line", metavar="ID", required=True, help="A line of the bay sheet that failed, by its name."
)
@book_option
def comeback(job: str, line: str, book: Path | None) -> None:
    """Say what single fault makes a line of the bay sheet fail, the likeliest first.

    \b
    loombook comeback tansy-subwoofer --line sub-amp-turn-on-radio-on
    """
    causes = _causes(job, book)
    if line not in {test.id for test in causes.job.pack.tests}:
        raise click.UsageError(f'no line of the bay sheet of {job} is called "{line}"')
    click.echo(causes_text(line, causes.of(line)), nl=False)


def _causes(job: str, book: Path | None) -> Causes:
    whole = opened(book)
    try:
        return returned(whole, called_now(whole, job, "job"))
    except NoSuchRecordError as error:
        raise click.UsageError(str(error)) from error
    except NoCircuitError as error:
        raise no_circuit(error.made.pack.job, error.made.pack.kind) from error
