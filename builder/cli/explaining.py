"""`loombook rule` and `explain`: what a finding means, and why a pin is graded as it is."""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.cli.answering import format_option
from builder.cli.books import book_option, opened
from builder.cli.known_ids import complete_pins, complete_rules, complete_vehicles
from builder.cli.old_names import called_now
from builder.pipeline.asking.answering import NoSuchRecordError
from builder.pipeline.asking.explaining import (
    NoSuchPinError,
    NoSuchRuleError,
    explained_pin,
    explained_rule,
)
from builder.rendering.explain_text import explanation_text, rule_text
from builder.rendering.pages.catalogue import weight_words


@click.command()
@click.argument("name", metavar="ID", shell_complete=complete_rules)
def rule(name: str) -> None:
    """Print the page of a finding: what it catches, why, an example, the cure, the source.

    ID is what `check` prints, in any case, or the name beside it: those of the rules, of the
    YAML reader (YML) and of the schema (SCH) alike.

    \b
    loombook rule PIN101
    loombook rule cavity-used-twice
    """
    try:
        found = explained_rule(name)
    except NoSuchRuleError as error:
        raise click.UsageError(str(error)) from error
    click.echo(rule_text(found, weight_words(found)), nl=False)


@click.command()
@click.argument("vehicle", shell_complete=complete_vehicles)
@click.argument("pin", shell_complete=complete_pins)
@book_option
@format_option
def explain(vehicle: str, pin: str, book: Path | None, form: str) -> None:
    """Say why a pin is graded as it is, what would raise it, and which plans use it.

    VEHICLE is a record's id; part of it, or a question, will do when only one fits. PIN is plug
    and cavity, as in A.4.

    \b
    loombook explain ostrel-kavo-2017-hatch-base A.7
    """
    whole = opened(book)
    try:
        found = explained_pin(whole, called_now(whole, vehicle, "vehicle"), pin)
    except (NoSuchRecordError, NoSuchPinError) as error:
        raise click.UsageError(str(error)) from error
    if form == "json":
        click.echo(json.dumps(found.as_data(), indent=2, ensure_ascii=False))
        return
    uses = [use.words for use in found.uses]
    of_pin = (found.vehicle, found.plug, found.pin, found.proof, found.grade)
    text = explanation_text(*of_pin, uses, private=found.private)
    click.echo(text, nl=False)
