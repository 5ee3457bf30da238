"""What can be asked of `why`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option, format_option
from builder.cli.forms import Form
from builder.cli.known_ids import complete_pins, complete_reasons


@click.command()
@click.argument("name", metavar="FINDING|VEHICLE|JOB", shell_complete=complete_reasons)
@click.argument("pin", required=False, shell_complete=complete_pins)
@click.option("--year", type=click.IntRange(1980, 2100), help="A model year to grade the pin for.")
@book_option
@format_option
def why(name: str, pin: str | None, year: int | None, book: Path | None, form: Form) -> None:
    """Say why: what a finding means, why a pin has its grade, why a job is planned as it is.

    FINDING is what `check` prints, in any case, or the name beside it: its page says what it
    catches, why it matters in the bay, an example, what to do, and the source. VEHICLE is a
    record's id, or a part or question that only one fits; PIN is plug and cavity, as in A.4, and
    --year a model year: readings of a car that is more than a year away count less. JOB is a job's
    id, or a part of only one.

    \b
    loombook why PIN101
    loombook why ostrel-tansy-2017-hatch-base A.7 --year 2019
    loombook why tansy-subwoofer
    """
    from builder.cli import why

    why.why(name, pin, year, book, form)
