"""`loombook start`: a shop's own book."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import BookNotFoundError, holds_book
from builder.book.settings_files import SETTINGS_FILE
from builder.cli.book_here import book_here
from builder.pipeline.changing.starting import Started, start_book

_LONGEST_NAME = 120


def start(folder: Path, name: str | None, shared: Path | None, alone: bool) -> None:
    """Make a book, and print what was written."""
    if alone and shared is not None:
        raise click.UsageError("--alone and --shared contradict each other")
    title = _site_name(folder, name)
    beside = None if alone else shared or _book_beside(folder)
    try:
        made = start_book(folder, title, beside)
    except (BookNotFoundError, FileExistsError, NotADirectoryError) as error:
        raise click.UsageError(str(error)) from error
    _report(folder, made, beside)


def _site_name(folder: Path, name: str | None) -> str:
    title = (name or folder.resolve().name).strip()
    if not title or len(title) > _LONGEST_NAME or not title.isprintable():
        raise click.UsageError(f"a name is one line of 1 to {_LONGEST_NAME} characters")
    return title


def _book_beside(folder: Path) -> Path | None:
    """The book where the command stands, unless it is the one that is being made."""
    try:
        here = book_here()
        return here if here.resolve() != folder.resolve() and holds_book(here) else None
    except BookNotFoundError:
        return None


def _report(folder: Path, made: Started, shared: Path | None) -> None:
    kept = f", {len(made.kept)} kept as they were" if made.kept else ""
    click.echo(f"{folder}: {len(made.written)} files written{kept}")
    if SETTINGS_FILE in made.kept:
        click.echo("  its settings were kept too: they say which folders of records count")
    elif shared is not None:
        click.echo(f"  with the shared records of {shared}")
    if ".gitignore" in made.kept:
        click.echo("  see to it that its .gitignore names private/")
    click.echo(f"Next: cd {folder}; read README.md; loombook check")
