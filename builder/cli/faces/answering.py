"""What can be asked of `find`, `show` and `plan`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.faces.options import book_option, format_option
from builder.cli.forms import Form
from builder.cli.known_ids import completing

if TYPE_CHECKING:
    from builder.planning.feeds.tap_plan import Treatment

_plan_format_option = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "spice"]),
    default="text",
    show_default=True,
    help="text for people, json for programs, spice for a circuit simulator: the netlist of a "
    "job's tap plan.",
)

_as_begun_option = click.option(
    "--as-begun",
    is_flag=True,
    help="Of a job: print the whole pack that it was begun with, whatever the book says since. It "
    "is to be read, not worked from.",
)


@click.command()
@click.argument("question", nargs=-1, required=True)
@book_option
@format_option
def find(question: tuple[str, ...], book: Path | None, form: Form) -> None:
    """Answer a question such as "quern 2018 switched".

    Say a car (make, model, years, variant), a function (switched, constant, ground, turn on,
    illumination, front left ...), a wire colour (base/stripe), a plug or cavity (A4, plug B), or
    several of them with "and", in any order; or a part by its id or name. A converter beside a car
    brings their plan. The handbook prints every word it knows.

    \b
    loombook find quern 2018 switched and ground
    loombook find tansy green/black rear left
    loombook find rook plug X2 pin 3
    loombook find tansy cvn-2a
    """
    from builder.cli import answering

    answering.find(question, book, form)


@click.command()
@click.argument("vehicle", metavar="VEHICLE|JOB", shell_complete=completing("vehicle", "job"))
@_as_begun_option
@book_option
@format_option
def show(vehicle: str, as_begun: bool, book: Path | None, form: Form) -> None:
    """Show one vehicle: its main answers, every pin, and how sure each is.

    VEHICLE is a record's id; part of it, or a question, will do when only one fits. Of a JOB it
    shows how far it is: what failed and why, what is joined, and the way back.
    """
    from builder.cli import answering

    answering.show(vehicle, as_begun, book, form)


@click.command()
@click.argument("name", metavar="JOB|VEHICLE", shell_complete=completing("vehicle", "job"))
@click.option(
    "--converter",
    "-c",
    metavar="ID",
    shell_complete=completing("converter"),
    help="A record in converters/: plan a vehicle with it instead of a job.",
)
@click.option(
    "--amplifier",
    "-a",
    "amplifiers",
    metavar="ID",
    multiple=True,
    shell_complete=completing("amplifier"),
    help="A record in amplifiers/, with --converter: the whole work pack, with what no job says "
    "assumed and listed. Give it once for each amplifier.",
)
@click.option(
    "--treatment",
    type=click.Choice(["auto", "addon", "intercept"]),
    default="auto",
    show_default=True,
    help="addon taps beside the factory speakers, intercept breaks the lines.",
)
@book_option
@_plan_format_option
def plan(
    name: str,
    converter: str | None,
    amplifiers: tuple[str, ...],
    treatment: Treatment,
    book: Path | None,
    form: Form,
) -> None:
    """Plan a job: pins, power, cables, gains, the bay sheet and the way back to stock.

    With --converter it plans a vehicle with that converter: which pins feed it, and what
    switches it on. With --amplifier too it sketches a job that nobody has written yet: one or
    two amplifier channels add a subwoofer, three or more take the doors over; lengths and
    speakers are assumed and stand at the top. loombook new job makes it a real one.

    When the facts are not good enough it is a probe plan, which says what to measure first, or
    no plan, which says why. Both end with exit code 1. So does a plan with anything that build
    would not pass: a stop, or a fix nobody accepts, on a record it is made from or the settings.

    \b
    loombook plan tansy-subwoofer
    loombook plan tansy-subwoofer --format spice > tansy.cir
    loombook plan ostrel-tansy-2017-hatch-base --converter cvn-2a
    loombook plan ostrel-tansy-2017-hatch-base --converter cvn-2a --amplifier amn-600
    """
    from builder.cli import answering

    answering.plan(name, converter, amplifiers, treatment, book, form)
