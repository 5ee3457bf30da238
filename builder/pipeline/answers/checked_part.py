"""`check` of one record or folder: its findings, and those of what it can touch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from builder.book import (
    FOLDERS,
    OTHER_SETTINGS_FILE,
    SETTINGS_FILE,
    Book,
    RecordFile,
    shown_path,
)
from builder.book.revisions import changed_since
from builder.findings import Finding
from builder.pipeline.checking.altered_visits import altered_visits
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.named_files import NotInBookError, named_files
from builder.pipeline.checking.touching import touched_by
from builder.pipeline.checking.workers import Progress


class CheckedPart(NamedTuple):
    """What the check finds in a part of a book, and of how many records."""

    book: Book
    findings: tuple[Finding, ...]
    records: int
    anew: int  # vehicles and jobs of the whole book that were looked at anew


def check_part(book: Book, paths: Sequence[Path], progress: Progress) -> CheckedPart:
    """Check what paths name and what that touches; jobs that it does not touch are not planned.

    The vehicles of the whole book are compared with each other all the same.

    Raises:
        NotInBookError: a path names no record of the book.
    """
    return _checked(book, _chosen(book, paths), progress)


def check_changed(book: Book, revision: str, progress: Progress) -> CheckedBook | CheckedPart:
    """Check what a book has otherwise than at a git revision, and what that touches.

    The whole book, where its settings changed or a record is gone: both can touch every record.

    Raises:
        NoSuchRevisionError: git cannot say what was there then.
    """
    changed = {path.resolve() for path in changed_since(book.folder, revision)}
    files = [file for file in book.every_file() if file.path.resolve() in changed]
    left = changed - {file.path.resolve() for file in files}
    altered = list(altered_visits(book, revision, sorted(changed)))
    if any(_is_of(book, path) for path in left):
        whole = check_book(book, progress)
        return replace(whole, findings=_sorted([*whole.findings, *altered]))
    part = _checked(book, files, progress)
    return part._replace(findings=_sorted([*part.findings, *altered]))


def _sorted(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=Finding.sort_key))


def _is_of(book: Book, path: Path) -> bool:
    """Whether a changed file that is no record of today belongs to the book all the same."""
    if path.parent == book.folder.resolve() and path.name in (SETTINGS_FILE, OTHER_SETTINGS_FILE):
        return True
    places = [root.folder.resolve() for root in book.roots]
    return any(
        path.is_relative_to(place) and set(path.relative_to(place).parts[:1]) <= FOLDERS.keys()
        for place in places  # a whole root that changed is a repository inside this one
    )


def _checked(book: Book, chosen: Sequence[RecordFile], progress: Progress) -> CheckedPart:
    touched = touched_by(book, chosen)
    jobs = {file.path for file in touched if file.kind == "job"}
    checked = check_book(book, progress, jobs)
    shown = {file.shown for file in touched}
    ids = {file.path.stem for file in chosen if file.kind == "vehicle"}
    found = (f for f in checked.findings if f.file in shown or ids & set(f.also))
    return CheckedPart(book, tuple(found), len(touched), checked.anew)


def _chosen(book: Book, paths: Sequence[Path]) -> list[RecordFile]:
    files = {file.path: file for file in book.every_file()}
    chosen: set[Path] = set()
    for path in paths:
        named = named_files(files, path)
        if not named:
            what = "names no record of the book" if path.exists() else "is not there"
            there = shown_path(book.folder)
            raise NotInBookError(
                f"{shown_path(path)} {what} in {there}. Name its book with --book."
            )
        chosen.update(named)
    return [files[path] for path in files if path in chosen]
