"""`loombook find`, `show` and `plan`: the book's answers in a terminal."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import click

from builder.cli.books import book_option, opened
from builder.pipeline.answering import (
    Found,
    NoSuchRecordError,
    answers,
    described_vehicle,
    planned,
)
from builder.pipeline.packs import packed
from builder.planning.tap_plan import Treatment
from builder.rendering.pack_text import pack_text
from builder.rendering.terminal import answers_text, plan_text, vehicle_text
from builder.rendering.which_text import questions_lines

Result = TypeVar("Result")

format_option = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="text for people, json for programs.",
)


@click.command()
@click.argument("question", nargs=-1, required=True)
@book_option
@format_option
def find(question: tuple[str, ...], book: Path | None, form: str) -> None:
    """Answer a question such as "alta 2018 switched".

    Say a car (make, model, years, variant), a function (switched, constant, ground, turn on,
    illumination, front left ...), a wire colour (base/stripe), a plug or cavity (A4, plug B), or
    several of them with "and", in any order. The handbook prints every word it knows.

    \b
    loombook find alta 2018 switched and ground
    loombook find kavo green/black rear left
    loombook find rook plug X2 pin 3
    """
    found = answers(opened(book), " ".join(question))
    if form == "json":
        click.echo(json.dumps(found.as_data(), indent=2, ensure_ascii=False))
    else:
        click.echo(answers_text(found.answers, _questions(found)), nl=False)
    if not found.answers:
        raise SystemExit(1)


@click.command()
@click.argument("vehicle")
@book_option
@format_option
def show(vehicle: str, book: Path | None, form: str) -> None:
    """Show one vehicle: its main answers, every pin, and how sure each is.

    VEHICLE is a record's id; part of it, or a question, will do when only one fits.
    """
    described = _or_wrong_use(lambda: described_vehicle(opened(book), vehicle))
    if form == "json":
        click.echo(json.dumps(described.as_data(), indent=2, ensure_ascii=False))
    else:
        click.echo(vehicle_text(described.vehicle, described.proofs, described.findings), nl=False)


@click.command()
@click.argument("name", metavar="JOB|VEHICLE")
@click.option(
    "--converter",
    "-c",
    metavar="ID",
    help="A record in converters/: plan a vehicle with it instead of a job.",
)
@click.option(
    "--treatment",
    type=click.Choice(["auto", "addon", "intercept"]),
    default="auto",
    show_default=True,
    help="addon taps beside the factory speakers, intercept breaks the lines.",
)
@book_option
@format_option
def plan(
    name: str, converter: str | None, treatment: Treatment, book: Path | None, form: str
) -> None:
    """Plan a job: pins, power, cables, gains, the bay test sheet and the way back to stock.

    With --converter it plans a vehicle with that converter: which pins feed it, and what
    switches it on. When the facts are not good enough it is a probe plan, which says what to
    measure first, or no plan, which says why. Both end with exit code 1.

    \b
    loombook plan kavo-subwoofer
    loombook plan ostrel-kavo-2017-hatch-base --converter cv-2a
    """
    kind = (
        _plan_job(name, treatment, book, form)
        if converter is None
        else _plan_vehicle(name, converter, treatment, book, form)
    )
    if kind != "tap_plan":
        raise SystemExit(1)


def _plan_job(name: str, treatment: Treatment, book: Path | None, form: str) -> str:
    if treatment != "auto":
        raise click.UsageError("--treatment goes with --converter; a job's record says its own")
    made = _or_wrong_use(lambda: packed(opened(book), name))
    if form == "json":
        click.echo(json.dumps(made.as_data(), indent=2, ensure_ascii=False))
    else:
        click.echo(pack_text(made.pack, made.parts, made.findings), nl=False)
    return made.pack.kind


def _plan_vehicle(
    vehicle: str, converter: str, treatment: Treatment, book: Path | None, form: str
) -> str:
    made = _or_wrong_use(lambda: planned(opened(book), vehicle, converter, treatment))
    if form == "json":
        click.echo(json.dumps(made.as_data(), indent=2, ensure_ascii=False))
    else:
        click.echo(plan_text(made.plan, made.vehicle, made.converter), nl=False)
    return made.plan.kind


def _questions(found: Found) -> list[str]:
    if found.which is None:
        return []
    cars = found.which
    asks, same = cars.asks(), cars.same()
    return list(questions_lines(len(cars.entries), asks, same, cars.title))


def _or_wrong_use(ask: Callable[[], Result]) -> Result:
    try:
        return ask()
    except NoSuchRecordError as error:
        raise click.UsageError(str(error)) from error
