"""`loombook mend` and `loombook tidy`: records put right without asking."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import TypeVar

import click

from builder.book import Book, RecordFile, holds_book, shown_path
from builder.cli.books import opened_to_write
from builder.cli.exit_codes import REFUSED, WRITTEN_WITH_FINDINGS
from builder.pipeline.changing.chosen_files import chosen_files
from builder.pipeline.changing.mending import MendedBook, mended_book
from builder.pipeline.changing.mending_photos import (
    BaredPhoto,
    photos_to_bare,
    write_bared,
)
from builder.pipeline.changing.mending_visits import (
    MendedVisits,
    visits_to_move,
    write_with_visits,
)
from builder.pipeline.changing.record_files import ChangedMeanwhileError
from builder.pipeline.changing.tidying import Tidied, tidied_file, write_tidied
from builder.pipeline.changing.visit_moving import MovedCar, Stays, moved_cars, write_moved
from builder.pipeline.checking.named_files import NotInBookError

Result = TypeVar("Result")


def mend(paths: tuple[Path, ...], book: Path | None, dry_run: bool) -> None:
    """Type what is sure, move visits into files of their own, bare photos, and print it."""
    whole, files = _chosen(opened_to_write(_book_of(paths, book), dry_run), paths, book)
    mended = mended_book(whole, files)
    visits = visits_to_move(whole, mended)
    photos = photos_to_bare(whole, files)
    _tell(mended)
    _tell_photos(photos, dry_run)
    _tell_visits(visits.moved, visits.stay)
    if dry_run:
        _show_diffs(visits)
    else:
        _or_wrong_use(lambda: write_bared(photos))
        _or_wrong_use(lambda: write_with_visits(visits))
    failing = sum(finding.fails_check for finding in mended.left)
    more = _moved_words(visits.moved, dry_run, "; ", "") + _bared_words(photos, dry_run)
    click.echo(_summary(mended, failing, dry_run) + more)
    changes = bool(mended.changed or visits.moved or photos)
    if failing and changes and not dry_run:
        raise SystemExit(WRITTEN_WITH_FINDINGS)
    if failing or (dry_run and changes):
        raise SystemExit(REFUSED)


def move_visits(paths: tuple[Path, ...], book: Path | None, dry_run: bool) -> None:
    """Move visits out of vehicles' records into files of their own, and do nothing else."""
    whole, files = _chosen(opened_to_write(_book_of(paths, book), dry_run), paths, book)
    found = list(moved_cars(whole, files))
    moved = [each for each in found if isinstance(each, MovedCar)]
    stay = [each for each in found if isinstance(each, Stays)]
    _tell_visits(moved, stay)
    for each in moved if not dry_run else ():
        _or_wrong_use(partial(write_moved, each))
    click.echo(_moved_words(moved, dry_run, "", "no visit to move"))
    if stay:
        raise SystemExit(WRITTEN_WITH_FINDINGS if moved and not dry_run else REFUSED)


def _tell_visits(moved: Iterable[MovedCar], stay: Iterable[Stays]) -> None:
    for each in moved:
        click.echo(each.told)
    for one in stay:
        click.echo(f"{one.file.shown}: visits left alone: {one.why}", err=True)


def _tell_photos(photos: Iterable[BaredPhoto], dry_run: bool) -> None:
    done = "would be taken out" if dry_run else "taken out"
    for photo in photos:
        click.echo(f"{photo.words}\n  {done}; the picture stays bit for bit")


def _bared_words(photos: Sequence[BaredPhoto], dry_run: bool) -> str:
    if not photos:
        return ""
    count = f"{len(photos)} {_counted(len(photos), 'photo')}"
    return f"; metadata {'would be taken' if dry_run else 'taken'} out of {count}"


def _moved_words(moved: Sequence[MovedCar], dry_run: bool, before: str, none: str) -> str:
    if not moved:
        return none
    visits = sum(len(each.visits) for each in moved)
    of = f"{visits} {_counted(visits, 'visit')} of {len(moved)} {_counted(len(moved), 'vehicle')}"
    return f"{before}{of} {'would be moved' if dry_run else 'moved'}"


def _counted(number: int, thing: str) -> str:
    return thing if number == 1 else f"{thing}s"


def tidy(paths: tuple[Path, ...], book: Path | None, check: bool) -> None:
    """Put records in the house style, or with `check` print what is not."""
    _, files = _chosen(opened_to_write(_book_of(paths, book), check), paths, book)
    results = [tidied_file(file) for file in files]
    refused = [each for each in results if each.refused]
    for each in refused:
        click.echo(f"{each.file.shown}: left alone: {each.refused}", err=True)
    written = 0
    if check:
        _tell_style(results)
    else:
        written = _or_wrong_use(lambda: write_tidied(results))
        click.echo(f"{written} of {len(files)} records put in the house style")
    if refused or (check and any(each.changed for each in results)):
        raise SystemExit(WRITTEN_WITH_FINDINGS if written else REFUSED)


def _tell(mended: MendedBook) -> None:
    for each in mended.changed:
        for line in each.made:
            click.echo(f"{line}\n  mended")


def _summary(mended: MendedBook, failing: int, dry_run: bool) -> str:
    made = sum(len(each.made) for each in mended.changed)
    would = "would be mended" if dry_run else "mended"
    files = len(mended.changed)
    left = f"{failing} left that need you: loombook check" if failing else "nothing left to mend"
    return f"{made} {would} in {files} {'file' if files == 1 else 'files'}; {left}"


def _tell_style(results: Sequence[Tidied]) -> None:
    for each in results:
        for fault in each.faults:
            click.echo(f"{each.file.shown}:{fault.line}: {fault.message}")
    changed = sum(each.changed for each in results)
    click.echo(f"{changed} of {len(results)} records differ from the house style")


def _show_diffs(visits: MendedVisits) -> None:
    """What is mended and what moves, as one diff: visits are files that were not there."""
    for shown, old, new in visits.texts():
        before = f"a/{shown}" if old else "/dev/null"
        one, other = old.splitlines(keepends=True), new.splitlines(keepends=True)
        for line in difflib.unified_diff(one, other, before, f"b/{shown}"):
            click.echo(line if line.endswith("\n") else f"{line}\n", nl=False)


def _book_of(paths: Sequence[Path], book: Path | None) -> Path | None:
    """The book that was named; one folder that is a book itself stands for all of it."""
    if book is None and len(paths) == 1 and holds_book(paths[0]):
        return paths[0]
    return book


def _chosen(book: Book, paths: Sequence[Path], named: Path | None) -> tuple[Book, list[RecordFile]]:
    whole = named is None and len(paths) == 1 and holds_book(paths[0])
    try:
        files, passed_over = chosen_files(book, () if whole else paths)
    except NotInBookError as error:
        raise click.UsageError(str(error)) from error
    for lender in passed_over:
        there = shown_path(lender)
        click.echo(
            f"left alone: the shared book at {there}; run it there: --book {there}", err=True
        )
    return book, files


def _or_wrong_use(work: Callable[[], Result]) -> Result:
    try:
        return work()
    except ChangedMeanwhileError as error:
        raise click.ClickException(str(error)) from error
