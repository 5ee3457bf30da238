"""What a shell may complete: ids of the book where a command stands, pins, and rules.

Completion must never fail: without a book there is nothing to offer.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click
from click.shell_completion import CompletionItem

from builder.book import Book, BookNotFoundError, open_book
from builder.cli.books import book_here
from builder.model.words import RecordKind
from builder.pipeline.answers.explaining import pins_of
from builder.pipeline.answers.explanations import every_explanation
from builder.pipeline.checking.old_names import now_called


def _book(context: click.Context) -> Book | None:
    named = context.params.get("book")
    try:
        return open_book(Path(named) if named else book_here())
    except (BookNotFoundError, OSError):
        return None


def _starting(words: Iterable[str], typed: str) -> list[str]:
    return sorted(word for word in words if word.startswith(typed) and word.isprintable())


def complete_vehicles(
    context: click.Context, option: click.Parameter, typed: str
) -> list[CompletionItem]:
    """Return the ids of vehicles that start as typed, or whose old ids do."""
    return _named(_book(context), typed, "vehicle")


def _named(book: Book | None, typed: str, *kinds: RecordKind) -> list[CompletionItem]:
    """Return the records of these kinds whose ids start as typed, then those whose old ids do."""
    files = book.files() if book else []
    ids = (file.path.stem for file in files if file.kind in kinds and not file.is_template)
    found = _starting(ids, typed)
    old = book.renamed.items() if book and typed else ()
    led = {
        now: now_called(was, now)
        for (kind, was), now in old
        if kind in kinds and was.startswith(typed) and now not in found
    }
    items = [CompletionItem(each) for each in found]
    return items + [CompletionItem(now, help=said) for now, said in led.items()]


def complete_pins(context: click.Context, option: click.Parameter, typed: str) -> list[str]:
    """Return the pins of the vehicle typed before that start as typed."""
    book, vehicle = _book(context), context.params.get("name")
    pins = pins_of(book, vehicle) if book and vehicle else []
    return [pin for pin in pins if pin.startswith(typed.upper())]


def complete_reasons(
    context: click.Context, option: click.Parameter, typed: str
) -> list[CompletionItem]:
    """Return the findings, jobs and vehicles that start as typed: whatever `why` is asked of."""
    found = [CompletionItem(each) for each in _rules(typed)]
    return found + (_named(_book(context), typed, "vehicle", "job") if typed else [])


def _rules(typed: str) -> list[str]:
    """Return the finding ids, or once a small letter is typed their names, that start so."""
    every = every_explanation()
    named = _starting((each.slug for each in every), typed) if typed else []
    return _starting((each.id for each in every), typed.upper()) or named
