"""What a newer state of a borrowed book would change, before anybody takes it."""

from __future__ import annotations

from collections.abc import Set
from pathlib import Path
from typing import NamedTuple

from builder.book import Book, Name, open_book
from builder.pipeline.comparing.books import RecordChanges, compared, edition_of_book


class UpdateChanges(NamedTuple):
    """What changes on the own records, plans and packs, and what on the borrowed ones."""

    own: tuple[RecordChanges, ...]
    borrowed: tuple[RecordChanges, ...]


def changes_of_update(now: Book, newer: dict[str, Path]) -> UpdateChanges:
    """Compare a book with itself as it would be with borrowed books read in these folders.

    Raises:
        BookNotFoundError: a folder holds two files of settings.
    """
    then = open_book(now.folder, now.public, instead=newer)
    changed = compared(edition_of_book(now), edition_of_book(then))
    own = {file.name for file in now.files() if now.lender_of(file.path) is None}
    mine = [each for each in changed if _is_own(each, own)]
    theirs = [each for each in changed if each not in mine]
    return UpdateChanges(tuple(mine), tuple(theirs))


def _is_own(changed: RecordChanges, own: Set[Name]) -> bool:
    """Whether it is an own record, the pack of an own job, or a plan of an own car."""
    job: Name = ("job", changed.name)
    if changed.kind == "work pack":
        return job in own
    if changed.kind == "plan":  # "<car> with <converter>"
        car: Name = ("vehicle", changed.name.partition(" with ")[0])
        return car in own
    return (changed.kind, changed.name) in own
