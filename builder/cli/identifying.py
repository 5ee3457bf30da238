"""`loombook identify`: what is this unknown wire?"""

from __future__ import annotations

import json
from pathlib import Path

import click

from builder.book import BookNotFoundError, settings_of
from builder.cli.book_here import book_here
from builder.cli.books import opened
from builder.cli.colours import told
from builder.cli.forms import Form
from builder.cli.interviewing import interview
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Reading
from builder.pipeline.answers.identifying import (
    Identified,
    ReadingsRefusedError,
    best_kinds,
    identified,
    readings_of_file,
    readings_of_texts,
    safety_line,
)
from builder.rendering.identify_text import identification_text, slip_text


def identify(
    texts: tuple[str, ...], file: Path | None, battery: float | None, book: Path | None, form: Form
) -> None:
    """Print what a wire is, or ask; exit 1 when the readings do not decide."""
    defaults = _defaults(book)
    readings = _given(texts, file, battery)
    if texts or file:
        answer = identified(readings, defaults)
    else:
        answer = interview(defaults, battery, quiet=form == "json")
    _print(answer, form)
    if not answer.found.decided:
        raise SystemExit(1)


def _defaults(book: Path | None) -> HouseDefaults:
    """The house defaults of the book; those shipped where there is no book."""
    if book is not None:
        return opened(book).defaults
    try:
        return settings_of(book_here()).defaults
    except BookNotFoundError:
        return HouseDefaults()


def _given(texts: tuple[str, ...], file: Path | None, battery: float | None) -> list[Reading]:
    readings = list(_of_file(file)) if file else []
    try:
        return [*readings, *readings_of_texts(texts, battery)]
    except ReadingsRefusedError as error:
        told = [
            slip_text(f"--reading {place}", text, s.column, len(s.written), s.message, s.help)
            for text, place, s in error.slips
        ]
        raise click.UsageError("\n".join(told)) from error


def _of_file(file: Path) -> tuple[Reading, ...]:
    readings, findings = readings_of_file(file)
    for finding in findings:
        click.echo(told(finding), err=True)
    if findings:
        raise SystemExit(1)
    return readings


def _print(answer: Identified, form: Form) -> None:
    if form == "json":
        click.echo(json.dumps(answer.as_data(), indent=2, ensure_ascii=False))
        return
    proposal = answer.found.next
    safety = safety_line(proposal.measurement) if proposal else ""
    functions = list(best_kinds(answer.found))
    text = identification_text(answer.readings, answer.found, functions, safety, answer.house)
    click.echo(text, nl=False)
