"""`loombook mend` and `loombook tidy`: records put right without asking."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TypeVar

import click

from builder.book import Book, RecordFile, holds_book, shown_path
from builder.cli.books import opened_to_write
from builder.cli.exit_codes import REFUSED, WRITTEN_WITH_FINDINGS
from builder.pipeline.changing.chosen_files import chosen_files
from builder.pipeline.changing.mending import MendedBook, mended_book, write_mended
from builder.pipeline.changing.record_files import ChangedMeanwhileError
from builder.pipeline.changing.tidying import Tidied, tidied_file, write_tidied
from builder.pipeline.changing.visit_moving import MovedCar, Stays, moved_cars, write_moved
from builder.pipeline.checking.named_files import NotInBookError

Result = TypeVar("Result")


def mend(paths: tuple[Path, ...], book: Path | None, dry_run: bool) -> None:
    """Type what is sure, and print it."""
    mended = mended_book(*_chosen(opened_to_write(_book_of(paths, book), dry_run), paths, book))
    _tell(mended)
    if dry_run:
        for each in mended.changed:
            click.echo(_diff(each.file, each.old, each.new), nl=False)
    else:
        _or_wrong_use(lambda: write_mended(mended))
    failing = sum(finding.fails_check for finding in mended.left)
    click.echo(_summary(mended, failing, dry_run))
    if failing and mended.changed and not dry_run:
        raise SystemExit(WRITTEN_WITH_FINDINGS)
    if failing or (dry_run and mended.changed):
        raise SystemExit(REFUSED)


def move_visits(paths: tuple[Path, ...], book: Path | None, dry_run: bool) -> None:
    """Move visits out of vehicles' records into files of their own."""
    whole, files = _chosen(opened_to_write(_book_of(paths, book), dry_run), paths, book)
    found = list(moved_cars(whole, files))
    moved = [each for each in found if isinstance(each, MovedCar)]
    for each in moved:
        click.echo(each.told)
        if not dry_run:
            _or_wrong_use(partial(write_moved, each))
    stays = [each for each in found if isinstance(each, Stays)]
    for one in stays:
        click.echo(f"{one.file.shown}: left alone: {one.why}", err=True)
    visits = sum(len(each.visits) for each in moved)
    would = "would be moved" if dry_run else "moved"
    click.echo(f"{visits} visits of {len(moved)} vehicles {would}")
    if stays:
        raise SystemExit(WRITTEN_WITH_FINDINGS if moved and not dry_run else REFUSED)


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


def _diff(file: RecordFile, old: str, new: str) -> str:
    lines = difflib.unified_diff(
        old.splitlines(keepends=True),
        new.splitlines(keepends=True),
        f"a/{file.shown}",
        f"b/{file.shown}",
    )
    return "".join(line if line.endswith("\n") else f"{line}\n" for line in lines)


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
