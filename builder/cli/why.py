"""`loombook why`: what a finding means, why a pin is graded as it is, why a job is planned so."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.answering import format_option
from builder.cli.books import book_option, opened
from builder.cli.forms import Form
from builder.cli.known_ids import complete_pins, complete_reasons
from builder.cli.old_names import called_now
from builder.pipeline.answers.answering import NoSuchRecordError, RefusedRecordError
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
    try:
        click.echo(_answer(name, pin, year, book, form), nl=False)
    except (NoSuchPinError, NoSuchRuleError) as error:
        raise click.UsageError(str(error)) from error
    except NoSuchRecordError as error:
        refused = isinstance(error, RefusedRecordError)
        more = "" if pin or refused else "; of a vehicle say which pin, as in A.7"
        raise click.UsageError(f"{error}{more}") from error


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
        whole = opened(book)
        return _of_job(packed(whole, called_now(whole, name, "job")), form)
    return _data(found.as_data()) if form == "json" else rule_text(found, weight_words(found))


def _of_job(made: MadePack, form: Form) -> str:
    if form == "json":
        return _data(made.reasons_as_data())
    return reasons_text(made.pack, made.parts, private=made.private)


def _of_pin(vehicle: str, pin: str, year: int | None, book: Path | None, form: Form) -> str:
    whole = opened(book)
    found = explained_pin(whole, called_now(whole, vehicle, "vehicle"), pin, year)
    if form == "json":
        return _data(found.as_data())
    uses = [use.words for use in found.uses]
    of_pin = (found.vehicle, found.plug, found.pin, found.proof, found.grade)
    return explanation_text(*of_pin, uses, private=found.private)


def _data(data: object) -> str:
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"
