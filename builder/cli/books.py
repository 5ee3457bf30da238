"""Finding the book a command is about, and showing progress on long work."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from builder.book import FOLDERS, Book, BookNotFoundError, open_book

Command = TypeVar("Command", bound=Callable[..., Any])

book_argument = click.argument(
    "book", required=False, type=click.Path(path_type=Path), metavar="[BOOK]"
)
book_option = click.option(
    "--book",
    "-b",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Folder of records.  [default: ./pinouts, else this folder]",
)


def opened(folder: Path | None) -> Book:
    """Return the book a command was given, or the one where it stands; exit 2 without one."""
    try:
        return open_book(folder or _here())
    except BookNotFoundError as error:
        raise click.UsageError(
            f"{error}. Name the folder that holds vehicles/, housings/ and so on."
        ) from error


def _here() -> Path:
    here = Path.cwd()
    if any((here / name).is_dir() for name in FOLDERS):
        return here
    return here / "pinouts"


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
