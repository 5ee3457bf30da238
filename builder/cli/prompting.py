"""The questions of `loombook new` at a terminal: only what was not given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, get_args

import click

from builder.book import Book
from builder.editing.drafts import AnswerError, Question, questions_of, read_one
from builder.editing.drafts.housing_choice import fitting_housings, shape_of
from builder.editing.drafts.question import NOTHING
from builder.editing.drafts.vehicle_lines import plug_line
from builder.model.words import UNKNOWN, Edge, Face, RecordKind
from builder.pipeline.checking.shelf import housings_of

_PLUG_IDS = "ABCDEFGHJKLMNP"


def ask_missing(
    kind: RecordKind, book: Book, given: Mapping[str, list[str]]
) -> dict[str, list[str]]:
    """Return the answers with those asked for that are missing.

    A person who gave none is asked every question worth asking, with its default; one who gave
    some is asked only for what has no default.
    """
    answers = dict(given)
    for question in questions_of(kind):
        needless = question.default is not None and (bool(given) or not question.asked)
        if question.name in answers or needless or not question.when(answers):
            continue
        if kind == "vehicle" and question.name == "plug":
            answers["plug"] = _plugs(book)
        elif question.many:
            answers[question.name] = _lines(kind, question)
        else:
            answers[question.name] = [_one(kind, question)]
    return answers


def _one(kind: RecordKind, question: Question) -> str:
    while True:
        text: str = click.prompt(question.prompt, default=question.default, err=True)
        try:
            read_one(kind, question, text)
        except AnswerError as error:
            click.echo(f"  {error}", err=True)
        else:
            return text


def _lines(kind: RecordKind, question: Question) -> list[str]:
    """Lines until an empty one, each read as it is typed."""
    click.echo(f"{question.prompt}\n  an empty line or none ends the list", err=True)
    lines: list[str] = []
    while True:
        text: str = click.prompt(
            f"{question.name} {len(lines) + 1}", default="", show_default=False, err=True
        )
        if text.strip().lower() in NOTHING:
            return lines
        try:
            if question.read is not None:
                read_one(kind, question, text)
        except AnswerError as error:
            click.echo(f"  {error}", err=True)
        else:
            lines.append(text)


def _plugs(book: Book) -> list[str]:
    """Plug after plug; the housing is proposed from the number of cavities and the latch."""
    plugs: list[str] = []
    while True:
        proposed = _PLUG_IDS[len(plugs)] if not plugs else ""
        plug_id: str = click.prompt(
            "Plug's letter" + (" (an empty line ends the plugs)" if plugs else ""),
            default=proposed,
            show_default=bool(proposed),
            err=True,
        )
        if not plug_id.strip():
            return plugs
        plugs.append(_plug(book, plug_id.strip().upper()))


def _plug(book: Book, plug_id: str) -> str:
    while True:
        housing = _housing(book)
        colour: str = click.prompt("Colour of its housing", err=True)
        face: str = click.prompt(
            "The face you counted on",
            type=click.Choice(get_args(Face)),
            err=True,
        )
        place: str = click.prompt("Where it is", default="behind the radio", err=True)
        line = f"{plug_id} {housing} {colour.strip().replace(' ', '_')} {face} {place}"
        try:
            plug_line(line)
        except AnswerError as error:
            click.echo(f"  {error}", err=True)
        else:
            return line


def _housing(book: Book) -> str:
    cavities: int = click.prompt("How many cavities has it", type=int, err=True)
    latch: Edge | Literal["unknown"] = click.prompt(
        "Where is its latch",
        type=click.Choice([*get_args(Edge), UNKNOWN]),
        default="unknown",
        err=True,
    )
    fitting = fitting_housings(
        housings_of(book).values(), cavities, "" if latch == "unknown" else latch
    )
    for number, housing in enumerate(fitting, 1):
        click.echo(f"  {number}. {housing.id}: {shape_of(housing)}", err=True)
    chosen: str = click.prompt(
        "Number of the one that fits, the id of a new housing, or unknown", default="1", err=True
    )
    if chosen.isdigit() and 0 < int(chosen) <= len(fitting):
        return fitting[int(chosen) - 1].id
    return chosen.strip()
