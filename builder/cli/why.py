"""`loombook why`: what a finding means, why a pin is graded as it is, why a job is planned so."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.books import asked_of
from builder.cli.forms import Form
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.answers.explaining import (
    NoSuchPinError,
    NoSuchRuleError,
    explained_pin,
    explained_rule,
    is_like_a_finding,
)
from builder.pipeline.answers.packs import MadePack, packed
from builder.rendering.explain_text import explanation_text, rule_text
from builder.rendering.pack_text import reasons_text
from builder.rendering.pages.catalogue import weight_words


def why(name: str, pin: str | None, year: int | None, book: Path | None, form: Form) -> None:
    """Print why: what a finding means, a pin's grade, or a job's plan."""
    try:
        click.echo(_answer(name, pin, year, book, form), nl=False)
    except (NoSuchPinError, NoSuchRuleError) as error:
        raise click.UsageError(str(error)) from error
    except NoSuchRecordError as error:
        more = "" if pin else "; of a vehicle say which pin, as in A.7"
        raise no_answer(error, more) from error


def _answer(name: str, pin: str | None, year: int | None, book: Path | None, form: Form) -> str:
    if pin is not None:
        return _of_pin(name, pin, year, book, form)
    if year is not None:
        raise click.UsageError("--year grades a pin: say which, as in A.7")
    try:
        found = explained_rule(name)
    except NoSuchRuleError:
        if is_like_a_finding(name):
            raise
        whole = asked_of(book)
        return _of_job(packed(whole, called_now(whole, name, "job")), form)
    return _data(found.as_data()) if form == "json" else rule_text(found, weight_words(found))


def _of_job(made: MadePack, form: Form) -> str:
    if form == "json":
        return _data(made.reasons_as_data())
    return reasons_text(made.pack, made.parts, private=made.private)


def _of_pin(vehicle: str, pin: str, year: int | None, book: Path | None, form: Form) -> str:
    whole = asked_of(book)
    found = explained_pin(whole, called_now(whole, vehicle, "vehicle"), pin, year)
    if form == "json":
        return _data(found.as_data())
    uses = [use.words for use in found.uses]
    of_pin = (found.vehicle, found.plug, found.pin, found.proof, found.grade)
    return explanation_text(*of_pin, uses, private=found.private)


def _data(data: object) -> str:
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"
