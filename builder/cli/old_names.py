"""Old names that are typed: the command goes on with the new one, and says so beside its answer."""

from __future__ import annotations

from collections.abc import Iterable

import click

from builder.book import Book
from builder.model.words import RecordKind
from builder.pipeline.checking.old_names import now_called


def called_now(book: Book, name: str, *kinds: RecordKind) -> str:
    """Return what the record of one of these kinds that was called `name` is called today.

    It is said on the error stream, so that what a program reads stays what it was. Any other name
    comes back as it is.
    """
    for kind in kinds:
        now = book.renamed.get((kind, name))
        if now is not None:
            click.echo(f"{now_called(name, now)}.", err=True)
            return now
    return name


def each_called_now(book: Book, names: Iterable[str], kind: RecordKind) -> tuple[str, ...]:
    """The same for several names of one kind."""
    return tuple(called_now(book, name, kind) for name in names)
