"""`loombook find`, `show` and `plan`: the book's answers in a terminal."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import click

from builder.book import Book
from builder.cli.books import asked_of
from builder.cli.colours import told
from builder.cli.forms import Form
from builder.cli.job_states import is_job, job_text, print_job
from builder.cli.netlist import no_circuit, not_a_job, print_netlist
from builder.cli.old_names import called_now, each_called_now
from builder.cli.refusals import no_answer
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
from builder.pipeline.answers.unread import unread_words
from builder.planning.feeds.tap_plan import Treatment
from builder.planning.job.sketch_job import CannotSketchError
from builder.planning.words import PlanKind
from builder.rendering.refused_text import refused_data, refused_text
from builder.rendering.terminal import answers_text, plan_text, vehicle_text
from builder.rendering.which_text import questions_lines

Result = TypeVar("Result")


def find(question: tuple[str, ...], book: Path | None, form: Form) -> None:
    """Print what a question is answered; exit 1 when neither a car nor a part fits."""
    found = answers(asked_of(book), " ".join(question))
    if form == "json":
        click.echo(json.dumps(found.as_data(), indent=2, ensure_ascii=False))
    else:
        asks = _questions(found)
        text = answers_text(
            found.answers, asks, found.read_as, found.missed, found.parts, found.plans()
        )
        click.echo(text + _unread_text(found), nl=False)
    if not found.answers and not found.parts:
        raise SystemExit(1)


def _unread_text(found: Found) -> str:
    """What keeps the records that may be meant from being read; without answers, why nothing
    answers says already which they are.
    """
    said = [unread_words(found.unread)] if found.unread and not found.missed else []
    findings = (each for one in found.unread for each in one.findings)
    return "".join(f"{line}\n" for line in (*said, *map(told, findings)))


def show(vehicle: str, as_begun: bool, book: Path | None, form: Form) -> None:
    """Print a vehicle, or how far a job is."""
    whole = asked_of(book)
    name = called_now(whole, vehicle, "vehicle", "job")
    if is_job(whole, name):
        _or_wrong_use(lambda: print_job(whole, name, form, as_begun))
        return
    described = _or_wrong_use(lambda: described_vehicle(whole, name))
    if form == "json":
        click.echo(json.dumps(described.as_data(), indent=2, ensure_ascii=False))
    else:
        text = vehicle_text(
            described.vehicle,
            described.proofs,
            described.findings,
            private=described.private,
            borrowed=described.borrowed,
        )
        click.echo(text, nl=False)


def plan(
    name: str,
    converter: str | None,
    amplifiers: tuple[str, ...],
    treatment: Treatment,
    book: Path | None,
    form: Form,
) -> None:
    """Print the plan of a job, a vehicle or a sketch; exit 1 unless it is a tap plan."""
    whole = asked_of(book)
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
        raise no_answer(error) from error


def _or_wrong_use(ask: Callable[[], Result]) -> Result:
    try:
        return ask()
    except NoSuchRecordError as error:
        raise no_answer(error) from error
