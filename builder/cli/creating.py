"""`loombook new`: a record begun from few questions, each of them an option as well."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from builder.book import Book, shown_path
from builder.cli.asking import Terminal
from builder.cli.books import opened_to_write
from builder.cli.colours import told
from builder.cli.exit_codes import end_with
from builder.cli.prompting import Interview, begin_interview
from builder.editing.drafts import AnswerError
from builder.model.words import RecordKind
from builder.pipeline.changing.creating import (
    NewRecord,
    answers_from,
    new_record,
    next_steps,
    write_new,
)
from builder.pipeline.changing.kept_photos import clear_photos, place_photos


def begin_record(
    kind: RecordKind,
    book: Path | None,
    answers: Path | None,
    dry_run: bool,
    options: dict[str, list[str]],
) -> None:
    """Make a record of a kind from the answers of a file and of options, and ask for the rest."""
    _create(kind, opened_to_write(book, dry_run), _given(kind, answers, options), dry_run)


def _given(
    kind: RecordKind, file: Path | None, options: dict[str, list[str]]
) -> dict[str, list[str]]:
    """The answers of the file, and over them those of the options."""
    given = {}
    if file is not None:
        given = _or_wrong_use(lambda: answers_from(file, shown_path(file), kind))
    return {**given, **options}


def _create(kind: RecordKind, book: Book, given: dict[str, list[str]], dry_run: bool) -> None:
    talk = begin_interview(kind, book, given, dry_run, Terminal())
    record = _asked_record(talk)
    if dry_run:
        click.echo(record.text, nl=False)
    else:
        stay = place_photos(book, record)  # first: a record never names one that is not there
        _or_wrong_use(lambda: write_new(record))
        clear_photos(book, talk.draft, stay)
        talk.draft.drop()
        for line in stay:
            click.echo(line, err=True)
    _report(record, dry_run)
    end_with(record.findings, written=not dry_run)


def _asked_record(talk: Interview) -> NewRecord:
    """The record of an interview; what makes it impossible is asked again."""
    while True:
        answers = talk.answers()
        try:
            return new_record(talk.book, talk.kind, answers)
        except (AnswerError, FileExistsError) as error:
            if not talk.reopen(str(error)):
                raise click.UsageError(str(error)) from error


def _report(record: NewRecord, dry_run: bool) -> None:
    shown = shown_path(record.path)
    click.echo("" if dry_run else f"{shown} is written", err=dry_run)
    for finding in record.findings:
        click.echo(told(finding), err=dry_run)
    click.echo("next:", err=dry_run)
    for number, step in enumerate(next_steps(record), 1):
        click.echo(f"  {number}. {step}", err=dry_run)


def _or_wrong_use(work: Callable[[], Any]) -> Any:
    try:
        return work()
    except (AnswerError, FileExistsError) as error:
        raise click.UsageError(str(error)) from error
