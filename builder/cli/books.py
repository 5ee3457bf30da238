"""Finding the book a command is about, and showing progress on long work."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import click

from builder.book import (
    FOLDERS,
    Book,
    BookNotFoundError,
    Looks,
    holds_book,
    home_of,
    open_book,
)
from builder.cli.book_here import book_here
from builder.store import NO_STORE, store_of


def opened(
    folder: Path | None,
    public: bool = False,
    as_of: str = "",
    since: Book | None = None,
    stored: bool = True,
    late: bool = False,
) -> Book:
    """Return the book a command was given, or the one where it stands; exit 2 without one.

    `since` is the same book, opened before, by a process that opens it again and again. With
    `stored`, what was worked out before counts.
    With `late`, a file that stands as it did when it was looked at before is read only when what is
    in it is asked for.
    """
    place = folder or book_here()
    try:
        known = since.store if since else store_of(place)
        store = known if stored else NO_STORE
        looks = Looks(store, place) if late and store.is_kept else None
        book = open_book(place, public, since, looks=looks)
        return replace(book, as_of=as_of, store=store)
    except BookNotFoundError as error:
        raise click.UsageError(
            f"{error}. Name the folder of a book, or make one: loombook start FOLDER"
        ) from error


def asked_of(folder: Path | None) -> Book:
    """The same for a command that answers a question and writes nothing."""
    return opened(folder, late=True)


class Looking(NamedTuple):
    """How a book is looked at."""

    public: bool
    as_of: str
    stored: bool

    def opened(self, folder: Path | None) -> Book:
        """The book in a folder, looked at so."""
        return opened(folder, self.public, self.as_of, stored=self.stored)


def opened_to_write(folder: Path | None, dry_run: bool = False) -> Book:
    """The same for a command that writes records: it clears what killed ones left behind."""
    from builder.pipeline.changing.record_files import clear_left_behind

    book = opened(folder)
    if not dry_run:
        clear_left_behind(root.folder / kind for root in book.own_roots for kind in FOLDERS)
    return book


def book_of(path: Path) -> Path:
    """The book that a path is in: the one where the command stands, else the path's own."""
    from builder.pipeline.checking.named_files import named_files

    here = book_here()
    if holds_book(here) and named_files((f.path for f in open_book(here).every_file()), path):
        return here
    home = home_of(path)
    return home if home.is_dir() and holds_book(home) else here


def progress(what: str) -> Callable[[int, int], None]:
    """Return a progress printer for a terminal; silent when nobody is watching."""
    if not sys.stderr.isatty():
        return lambda done, total: None

    def show(done: int, total: int) -> None:
        if done == total:
            click.echo("\r\x1b[K", nl=False, err=True)
        elif done % 25 == 0:
            click.echo(f"\r{what} {done} of {total}", nl=False, err=True)

    return show
