"""What can be asked of `identify`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option, format_option
from builder.cli.forms import Form


@click.command()
@click.option(
    "--reading",
    "-r",
    "texts",
    multiple=True,
    metavar="TEXT",
    help="One reading; repeat it for each. State, value and unit, then battery, minutes, load, "
    "against in any order.",
)
@click.option(
    "--from",
    "file",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    metavar="FILE",
    help="A YAML file with readings as in a vehicle record, without their visit.",
)
@click.option(
    "--battery",
    type=click.FloatRange(0, 60),
    metavar="VOLTS",
    help="Battery volts for readings that name none.",
)
@book_option
@format_option
def identify(
    texts: tuple[str, ...], file: Path | None, battery: float | None, book: Path | None, form: Form
) -> None:
    """Say what an unknown wire is, from readings taken on it, and what to measure next.

    With neither --reading nor --from it asks: one measurement at a time, the one that tells
    most for least work. The exit code is 0 when the readings decide, 1 when they do not.

    \b
    loombook identify
    loombook identify -r "asleep VALUE V minutes MINUTES" -r "accessory VALUE V battery VOLTS"
    loombook identify -r "unplugged VALUE ohm against pair" -r "radio on VALUE V"
    loombook identify --from wire.yaml --format json

    \b
    states   asleep, door open, accessory, run, crank, engine, lights on, lights dimmed,
             lights off, retained (key off, not yet asleep), radio off, radio on zero,
             tuner, other source, auto restart, unplugged, battery off
    units    V, mV, V ac, ohm, kohm, Hz, mA, % or the word open
    against  body, pair (the other wire of the pair), a cavity such as 4 or B.4
    load     lamp (0.4 A), 1a, 50ma, 5ma
    """
    from builder.cli import identifying

    identifying.identify(texts, file, battery, book, form)
