"""`loombook find`, `show` and `plan`: the book's answers in a terminal."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import click

from builder.book import Book
from builder.cli.books import book_option, opened
from builder.cli.forms import Form
from builder.cli.job_states import as_begun_option, is_job, job_text, plan_format_option, print_job
from builder.cli.netlist import no_circuit, not_a_job, print_netlist
from builder.cli.old_names import called_now, each_called_now
from builder.pipeline.answers.answering import (
    Found,
    NoSuchRecordError,
    RefusedRecordError,
    answers,
    described_vehicle,
)
from builder.pipeline.answers.packs import MadePack, packed
from builder.pipeline.answers.planned import planned
from builder.pipeline.answers.sketching import Asked, sketched
from builder.planning.feeds.tap_plan import Treatment
from builder.planning.job.sketch_job import CannotSketchError
from builder.planning.words import PlanKind
from builder.rendering.refused_text import refused_data, refused_text
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
def find(question: tuple[str, ...], book: Path | None, form: Form) -> None:
    """Answer a question such as "quern 2018 switched".

    Say a car (make, model, years, variant), a function (switched, constant, ground, turn on,
    illumination, front left ...), a wire colour (base/stripe), a plug or cavity (A4, plug B), or
    several of them with "and", in any order. The handbook prints every word it knows.

    \b
    loombook find quern 2018 switched and ground
    loombook find tansy green/black rear left
    loombook find rook plug X2 pin 3
    """
    found = answers(opened(book), " ".join(question))
    if form == "json":
        click.echo(json.dumps(found.as_data(), indent=2, ensure_ascii=False))
    else:
        text = answers_text(found.answers, _questions(found), found.read_as, found.missed)
        click.echo(text, nl=False)
    if not found.answers:
        raise SystemExit(1)


@click.command()
@click.argument("vehicle", metavar="VEHICLE|JOB")
@as_begun_option
@book_option
@format_option
def show(vehicle: str, as_begun: bool, book: Path | None, form: Form) -> None:
    """Show one vehicle: its main answers, every pin, and how sure each is.

    VEHICLE is a record's id; part of it, or a question, will do when only one fits. Of a JOB it
    shows how far it is: what failed and why, what is joined, and the way back.
    """
    whole = opened(book)
    name = called_now(whole, vehicle, "vehicle", "job")
    if is_job(whole, name):
        _or_wrong_use(lambda: print_job(whole, name, form, as_begun))
        return
    described = _or_wrong_use(lambda: described_vehicle(whole, name))
    if form == "json":
        click.echo(json.dumps(described.as_data(), indent=2, ensure_ascii=False))
    else:
        text = vehicle_text(
            described.vehicle, described.proofs, described.findings, private=described.private
        )
        click.echo(text, nl=False)


@click.command()
@click.argument("name", metavar="JOB|VEHICLE")
@click.option(
    "--converter",
    "-c",
    metavar="ID",
    help="A record in converters/: plan a vehicle with it instead of a job.",
)
@click.option(
    "--amplifier",
    "-a",
    "amplifiers",
    metavar="ID",
    multiple=True,
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
@plan_format_option
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
    whole = opened(book)
    name = called_now(whole, name, "vehicle" if converter else "job")
    converter = called_now(whole, converter, "converter") if converter else None
    amplifiers = each_called_now(whole, amplifiers, "amplifier")
    try:
        kind = _planned(name, converter, amplifiers, treatment, whole, form)
    except RefusedRecordError as refused:
        kind = _print_refused(name, converter, refused, form)
    if kind != "tap_plan":
        raise SystemExit(1)


def _planned(
    name: str,
    converter: str | None,
    amplifiers: tuple[str, ...],
    treatment: Treatment,
    whole: Book,
    form: Form,
) -> PlanKind:
    if converter is None:
        return _plan_job(name, amplifiers, treatment, whole, form)
    if amplifiers:
        return _plan_sketch(Asked(name, converter, amplifiers, treatment), whole, form)
    return _plan_vehicle(name, converter, treatment, whole, form)


def _print_refused(
    name: str, converter: str | None, refused: RefusedRecordError, form: Form
) -> PlanKind:
    """Say why a record that is asked for can be used by no plan."""
    if form == "spice":
        raise no_circuit(name, "no_plan")
    if form == "json":
        click.echo(json.dumps(refused_data(name, converter, refused.findings), indent=2))
    else:
        click.echo(refused_text(name, converter, refused.findings), nl=False)
    return "no_plan"


def _plan_job(
    name: str, amplifiers: tuple[str, ...], treatment: Treatment, book: Book, form: Form
) -> PlanKind:
    if treatment != "auto":
        raise click.UsageError("--treatment goes with --converter; a job's record says its own")
    if amplifiers:
        raise click.UsageError("--amplifier goes with --converter; a job's record names its own")
    return _print_pack(_found(lambda: packed(book, name)), form)


def _plan_sketch(asked: Asked, book: Book, form: Form) -> PlanKind:
    try:
        made = _found(lambda: sketched(book, asked))
    except CannotSketchError as error:
        raise click.UsageError(str(error)) from error
    return _print_pack(made, form)


def _print_pack(made: MadePack, form: Form) -> PlanKind:
    if form == "spice":
        print_netlist(made)
    elif form == "json":
        click.echo(json.dumps(made.as_data(), indent=2, ensure_ascii=False))
    else:
        click.echo(job_text(made), nl=False)
    return made.pack.kind


def _plan_vehicle(
    vehicle: str, converter: str, treatment: Treatment, book: Book, form: Form
) -> PlanKind:
    if form == "spice":
        raise not_a_job()
    made = _found(lambda: planned(book, vehicle, converter, treatment))
    if form == "json":
        click.echo(json.dumps(made.as_data(), indent=2, ensure_ascii=False))
    else:
        text = plan_text(made.plan, made.vehicle, made.converter, private=made.private)
        click.echo(text, nl=False)
    return made.plan.kind


def _questions(found: Found) -> list[str]:
    if found.which is None:
        return []
    cars = found.which
    asks, same = cars.asks(), cars.same()
    return list(questions_lines(len(cars.entries), asks, same, cars.title))


def _found(ask: Callable[[], Result]) -> Result:
    """The answer; a record that is there and cannot be used is no wrong use but a refusal."""
    try:
        return ask()
    except RefusedRecordError:
        raise
    except NoSuchRecordError as error:
        raise click.UsageError(str(error)) from error


def _or_wrong_use(ask: Callable[[], Result]) -> Result:
    try:
        return ask()
    except NoSuchRecordError as error:
        raise click.UsageError(str(error)) from error
