"""`loombook diff`: what changed from one edition of a book to another."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

import click

from builder.book import Book, BookNotFoundError, open_book
from builder.book.revisions import NoSuchRevisionError
from builder.cli.book_here import book_here
from builder.cli.books import opened
from builder.cli.faces.options import one_book
from builder.cli.forms import Form
from builder.pipeline.comparing.books import (
    NotComparableError,
    RecordChanges,
    compared,
    compared_files,
    edition_of_book,
)
from builder.pipeline.comparing.past_book import past_book
from builder.rendering.change_markdown import changes_markdown
from builder.rendering.change_text import changes_text


def diff(
    old: Path | None, new: Path | None, revision: str | None, book: Path | None, form: Form
) -> None:
    """Print what changed from one edition to another; exit 1 when something did."""
    try:
        changed, notes = _changes(old, new, revision, book)
    except (NotComparableError, NoSuchRevisionError, BookNotFoundError) as error:
        raise click.UsageError(str(error)) from error
    if form == "json":
        document = {"notes": notes, "changed": [record.as_data() for record in changed]}
        click.echo(json.dumps(document, indent=2, ensure_ascii=False))
    elif form == "markdown":
        click.echo(changes_markdown(changed, notes), nl=False)
    else:
        click.echo(changes_text(changed, notes), nl=False)
    if changed:
        raise SystemExit(1)


def _changes(
    old: Path | None, new: Path | None, revision: str | None, book: Path | None
) -> tuple[Sequence[RecordChanges], list[str]]:
    if revision is not None:
        if new is not None:
            raise click.UsageError("with --git, name one book only")
        return _since(opened(one_book(old, book)), revision)
    if old is None or new is None:
        raise click.UsageError("name what was and what is, or say --git and a revision")
    if old.is_dir() and new.is_dir():
        return compared(edition_of_book(open_book(old)), edition_of_book(open_book(new))), []
    if old.is_dir() or new.is_dir():
        raise click.UsageError("compare two folders or two files, not one of each")
    around = _book_around(book)
    notes = [] if around else ["no book here, so only the records were compared, not their plans"]
    return compared_files(old, new, around), notes


def _since(now: Book, revision: str) -> tuple[Sequence[RecordChanges], list[str]]:
    with past_book(now, revision) as past:
        notes = [f"{place} is not in that revision: taken as it is now" for place in past.as_now]
        return compared(edition_of_book(past.book), edition_of_book(now)), notes


def _book_around(named: Path | None) -> Book | None:
    if named is not None:
        return opened(named)
    try:
        return open_book(book_here())
    except BookNotFoundError:
        return None
