"""`loombook books`: the books of others that one builds on."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from builder.book import NOT_FETCHED, open_book, settings_of
from builder.book.locked import Lock, lock_text
from builder.book.revisions import NoSuchRevisionError
from builder.book.settings_files import LOCK_FILE
from builder.cli.book_here import book_here
from builder.loading import load_text
from builder.model.locked_books import LockedBook
from builder.pipeline.changing.borrowing import NotBorrowedError, newest, taken, write_lock
from builder.pipeline.changing.borrowing import fetch as bring
from builder.pipeline.comparing.borrowed_update import changes_of_update
from builder.rendering.change_text import changes_text
from builder.reporting import finding_text
from builder.schema_check import check_shape
from builder.unfinished import work_folder

_GENERAL = ("book", "pinouts", "records")
"""Last words of an address that say nothing of whose book it is."""


def add(
    address: str, name: str | None, folder: str | None, branch: str | None, book: Path | None
) -> None:
    """Take a book in at its newest commit, and write it into the lock."""
    home, lock = _opened(book)
    books = lock.named
    asked = _typed(LockedBook(
        name=name or _name_of(address), address=address, branch=branch or "",
        folder=folder or ".", commit="0" * 40, sum="0" * 64,
    ))  # fmt: skip
    if asked.name in {each.name for each in books}:
        raise click.UsageError(f"{LOCK_FILE} has {asked.name}: loombook books update {asked.name}")
    with _said(), work_folder() as then:
        found = taken(home, newest(home, asked), then)
        write_lock(home, [*books, found])
        bring(home, found)
    click.echo(f"{found.name}: taken in at {found.commit[:12]}, written into {LOCK_FILE}")
    click.echo("Next: loombook check")


def fetch(book: Path | None) -> None:
    """Bring what the lock says; exit 1 when one of them cannot be."""
    home, lock = _opened(book)
    books = lock.named
    failed = False
    for each in books:
        try:
            bring(home, each)
            click.echo(f"{each.name}: here, at {each.commit[:12]}")
        except (NotBorrowedError, NoSuchRevisionError) as error:
            click.echo(f"{each.name}: {error}", err=True)
            failed = True
    if not books:
        click.echo(f"{home}: no borrowed books; loombook books add ADDRESS takes one in")
    if failed:
        raise SystemExit(1)


def update(name: str | None, take: bool, book: Path | None) -> None:
    """Say what newer commits change for the own jobs, and take them when asked to."""
    home, lock = _opened(book)
    books = lock.named
    chosen = [each for each in books if name in (None, each.name)]
    if not chosen:
        raise click.UsageError(f"{LOCK_FILE} names no book {name}" if name else "no borrowed books")
    with _said(), work_folder() as then:
        newer = {}
        for each in chosen:
            found = taken(home, newest(home, each), _made(then / each.name))
            if found.commit != each.commit:
                newer[each.name] = found
        _tell(home, books, newer, then)
        if take and newer:
            write_lock(home, [newer.get(each.name, each) for each in books])
            for found in newer.values():
                bring(home, found)
            click.echo(f"{', '.join(newer)}: taken, written into {LOCK_FILE}")
    if newer and not take:
        click.echo("Take it with --take.")
        raise SystemExit(1)


def _tell(
    home: Path, books: Iterable[LockedBook], newer: dict[str, LockedBook], then: Path
) -> None:
    was = {each.name: each.commit for each in books}
    for name, found in newer.items():
        click.echo(f"{name}: {was[name][:12]} → {found.commit[:12]}")
    if not newer:
        click.echo("nothing newer")
        return
    changes = changes_of_update(open_book(home), {name: then / name for name in newer})
    click.echo("For your own records, plans and jobs:")
    click.echo(changes_text(changes.own), nl=False)
    click.echo("In the borrowed books themselves:")
    click.echo(changes_text(changes.borrowed), nl=False)


def listing(book: Path | None) -> None:
    """List the borrowed books; exit 1 when one is not here as it was locked."""
    home, lock = _opened(book)
    here = {each.book.name for each in lock.books}
    for each in lock.named:
        state = "here" if each.name in here else "not here: loombook books fetch"
        within = "" if each.folder == "." else f", folder {each.folder}"
        click.echo(f"{each.name}: {each.commit[:12]} of {each.address}{within} ({state})")
    if not lock.named:
        click.echo(f"{home}: no borrowed books")
    if lock.findings:
        raise SystemExit(1)


def _opened(book: Path | None) -> tuple[Path, Lock]:
    """The folder of the book, and its lock; exit 1 where the lock cannot be read."""
    home = book or book_here()
    lock = settings_of(home).lock
    wrong = [each for each in lock.findings if each.rule_id != NOT_FETCHED.id]
    if wrong:
        click.echo("\n".join(map(finding_text, wrong)))
        raise SystemExit(1)
    return home, lock


def _typed(asked: LockedBook) -> LockedBook:
    """What was typed, when a lock could hold it; exit 2 with what is wrong otherwise."""
    loaded = load_text(lock_text([asked]), LOCK_FILE)
    found = list(loaded.findings)
    if loaded.data is not None:
        found += check_shape("lock", loaded.data, loaded.source_map, LOCK_FILE)
    if found:
        raise click.UsageError(f"{found[0].message}. {found[0].help}")
    return asked


def _name_of(address: str) -> str:
    """What to call a book by its address: its last word, or the one before `book`."""
    words = [w for w in re.split(r"[^a-z0-9]+", address.lower().removesuffix(".git")) if w]
    return words[-2] if len(words) > 1 and words[-1] in _GENERAL else (words or ["borrowed"])[-1]


def _made(folder: Path) -> Path:
    folder.mkdir()
    return folder


@contextmanager
def _said() -> Iterator[None]:
    """What git or a borrowed book refuses, as one line; exit 1."""
    try:
        yield
    except (NotBorrowedError, NoSuchRevisionError) as error:
        click.echo(str(error), err=True)
        raise SystemExit(1) from error
