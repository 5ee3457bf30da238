"""`loombook which`: which record is my car?"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from builder.book import Book
from builder.cli.books import asked_of
from builder.cli.exit_codes import is_stopped
from builder.cli.forms import Form
from builder.cli.refusals import no_answer
from builder.finder.asking import Ask, same_among
from builder.model.names import COST_WORDS
from builder.model.words import UNKNOWN
from builder.pipeline.answers.answering import (
    RefusedRecordError,
    refuse_unread_car,
    renamed_vehicles,
)
from builder.pipeline.answers.kept_entries import finder_entries
from builder.pipeline.answers.which_car import (
    NoSuchModelError,
    WhichCar,
    model_called_now,
    which_car,
)
from builder.pipeline.checking.old_names import now_called
from builder.rendering.which_text import NONE_LEFT, questions_lines, same_lines

_UNKNOWN = "?"


def which(
    make: str, model: str, year: int | None, ask: bool | None, book: Path | None, form: Form
) -> None:
    """Print or ask which record is the car; exit 1 when several are left."""
    cars = _cars(asked_of(book), make, model, year)
    left: Sequence[str] = cars.candidates()
    if form == "json":
        click.echo(json.dumps(cars.as_data(), indent=2, ensure_ascii=False))
    elif len(left) > 1 and (sys.stdin.isatty() if ask is None else ask):
        left = _ask_until_one(cars)
        _print_end(cars, left)
    else:
        _print_list(cars)
    if len(left) != 1:
        raise SystemExit(1)


def _cars(whole: Book, make: str, model: str, year: int | None) -> WhichCar:
    """The records that a name could mean; one that is renamed is told."""
    entries = finder_entries(whole)
    today = model_called_now(entries, renamed_vehicles(whole), make, model)
    if today != (make, model):
        click.echo(f"{now_called(f'{make} {model}', ' '.join(today))}.", err=True)
    try:
        return which_car(entries, *today, year)
    except NoSuchModelError as error:
        try:
            refuse_unread_car(whole, f"{make} {model}", entries)
        except RefusedRecordError as refused:
            raise no_answer(refused) from error
        raise no_answer(error) from error


def _print_list(cars: WhichCar) -> None:
    ids = cars.candidates()
    if len(ids) == 1:
        _print_end(cars, ids)
    for line in questions_lines(len(ids), cars.asks(), cars.same(), cars.title):
        click.echo(line)


def _ask_until_one(cars: WhichCar) -> tuple[str, ...]:
    """Ask until one record is left or no question parts those that are."""
    left, unknown = cars.candidates(), set[str]()
    click.echo(f"{len(left)} records could be this car. Answer by number; ? for unknown.")
    while len(left) > 1:
        asks = [ask for ask in cars.asks(left) if ask.question not in unknown]
        if not asks:
            break
        try:
            chosen = _one_question(asks[0])
        except (click.Abort, EOFError) as error:
            if is_stopped(error):
                raise
            click.echo("")
            break
        if chosen is None:
            unknown.add(asks[0].question)
        else:
            left = chosen
            click.echo(f"   left: {' / '.join(cars.title(i) for i in left) or NONE_LEFT}")
    return left


def _one_question(ask: Ask) -> tuple[str, ...] | None:
    """What is left after the answer; None when it is not known."""
    click.echo(f"\n{ask.question} ({COST_WORDS[ask.cost]})")
    for number, choice in enumerate(ask.choices, start=1):
        click.echo(f"  {number}  {choice.words}")
    while True:
        typed = click.prompt(">", default=_UNKNOWN, show_default=False, prompt_suffix=" ")
        typed = typed.strip().lower()
        if typed in (_UNKNOWN, UNKNOWN):
            return None
        for number, choice in enumerate(ask.choices, start=1):
            if typed in (str(number), choice.words.lower()):
                return choice.leaves
        click.echo(f"  type a number from 1 to {len(ask.choices)}, or ?")


def _print_end(cars: WhichCar, left: Sequence[str]) -> None:
    if len(left) == 1:
        click.echo(f"Your car: {cars.title(left[0])}")
        click.echo(f"  loombook show {left[0]}")
        return
    if not left:
        click.echo("No record of this book is your car: its pins have to be proved from nothing.")
        return
    click.echo(f"\n{len(left)} records are left: none is yours until the rest is known.")
    for record in left:
        click.echo(f"  {cars.title(record)}   ({record})")
    for line in same_lines(same_among(cars.sisters, left), cars.title):
        click.echo(line)
