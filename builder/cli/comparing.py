"""`loombook diff`: what changed from one edition of a book to another."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

import click

from builder.book import Book, BookNotFoundError, open_book
from builder.cli.answering import format_option
from builder.cli.books import book_here, opened
from builder.cli.forms import Form
from builder.pipeline.comparing.books import (
    NotComparableError,
    RecordChanges,
    compared,
    compared_files,
    edition_of_book,
)
from builder.pipeline.comparing.past_book import NoSuchRevisionError, past_book
from builder.rendering.change_text import changes_text

_PATH = click.Path(path_type=Path, exists=True)


@click.command()
@click.argument("old", type=_PATH, required=False)
@click.argument("new", type=_PATH, required=False)
@click.option(
    "--git",
    "revision",
    metavar="REVISION",
    help="Compare the book as it was then with the book as it is now.",
)
@format_option
def diff(old: Path | None, new: Path | None, revision: str | None, form: Form) -> None:
    """Say what changed from OLD to NEW: pins, grades, and what each plan would build otherwise.

    OLD and NEW are two folders of records, or two files of one kind; the plans of single files
    are made with the parts of the book where you stand. With --git, OLD is the book and NEW is
    left out. The exit code is 0 when nothing changed, 1 when something did.

    \b
    loombook diff yesterday/pinouts pinouts
    loombook diff quern-old.yaml quern-new.yaml
    loombook diff --git HEAD~3
    """
    try:
        changed, notes = _changes(old, new, revision)
    except (NotComparableError, NoSuchRevisionError, BookNotFoundError) as error:
        raise click.UsageError(str(error)) from error
    if form == "json":
        document = {"notes": notes, "changed": [record.as_data() for record in changed]}
        click.echo(json.dumps(document, indent=2, ensure_ascii=False))
    else:
        click.echo(changes_text(changed, notes), nl=False)
    if changed:
        raise SystemExit(1)


def _changes(
    old: Path | None, new: Path | None, revision: str | None
) -> tuple[Sequence[RecordChanges], list[str]]:
    if revision is not None:
        if new is not None:
            raise click.UsageError("with --git, name one book only")
        return _since(opened(old), revision)
    if old is None or new is None:
        raise click.UsageError("name what was and what is, or say --git and a revision")
    if old.is_dir() and new.is_dir():
        return compared(edition_of_book(open_book(old)), edition_of_book(open_book(new))), []
    if old.is_dir() or new.is_dir():
        raise click.UsageError("compare two folders or two files, not one of each")
    around = _book_around()
    notes = [] if around else ["no book here, so only the records were compared, not their plans"]
    return compared_files(old, new, around), notes


def _since(now: Book, revision: str) -> tuple[Sequence[RecordChanges], list[str]]:
    with past_book(now, revision) as past:
        notes = [f"{place} is not in that revision: taken as it is now" for place in past.as_now]
        return compared(edition_of_book(past.book), edition_of_book(now)), notes


def _book_around() -> Book | None:
    try:
        return open_book(book_here())
    except BookNotFoundError:
        return None
