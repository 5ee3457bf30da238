"""`loombook check`."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

import click

from builder.book import Book, BookNotFoundError, holds_book, shown_path
from builder.book.revisions import NoSuchRevisionError
from builder.cli.books import Looking, book_of, progress
from builder.cli.colours import painted
from builder.cli.exit_codes import end_with
from builder.cli.faces.options import one_book
from builder.cli.forms import Form
from builder.findings import Finding
from builder.pipeline.answers.checked_part import CheckedPart, check_changed, check_part
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.lent import own_findings
from builder.pipeline.checking.named_files import NotInBookError, named_files
from builder.pipeline.checking.signatures import check_signatures
from builder.pipeline.checking.ssh_keygen import NoSshKeygenError
from builder.reporting import report
from builder.store import FOLDER, MOST_BYTES


def check(
    paths: Sequence[Path],
    book: Path | None,
    form: Form,
    everything: bool,
    signatures: bool,
    how: Looking,
    since: str | None,
    verbose: bool,
) -> None:
    """Print the findings of a book, or of a part of it; exit 1 when one fails."""
    checked = _checked(paths, book, how) if since is None else _changed(since, paths, book, how)
    if verbose:
        click.echo(_work_words(checked), err=True)
    every = [*checked.findings, *(_signatures(checked.book, paths) if signatures else ())]
    every.sort(key=Finding.sort_key)
    findings, left_out = own_findings(checked.book, every)
    if everything or form == "json":
        findings, left_out = every, Counter()
    for lender, count in left_out.items():
        said = "1 warning or note" if count == 1 else f"{count} warnings and notes"
        click.echo(f"{shown_path(lender)}: {said} of this shared book, shown with --all", err=True)
    findings = _for_forge(findings) if form == "annotations" else findings
    click.echo(report(findings, checked.records, form, painted), nl=False)
    end_with(every, written=False)


def _work_words(checked: CheckedBook | CheckedPart) -> str:
    """How much was worked out anew, and what the store takes of the disk."""
    store = checked.book.store
    anew = f"{checked.anew} vehicles and jobs looked at anew"
    if not store.is_kept:
        return f"{anew}; no store"
    taken = f"{store.size_bytes / 1e6:.1f} MB of at most {MOST_BYTES / 1e6:.0f} MB"
    return f"{anew}; the store takes {taken}: {shown_path(checked.book.folder / FOLDER)}"


def _signatures(book: Book, paths: Sequence[Path]) -> list[Finding]:
    """What is wrong with signatures of the book, or of what paths name in it; tells the count."""
    at = [file.path for file in book.files()]
    named = {place for path in paths for place in named_files(at, path)} or set(at)
    try:
        found = check_signatures(book, [file for file in book.files() if file.path in named])
    except NoSshKeygenError as error:
        raise click.ClickException(str(error)) from error
    click.echo(found.summary, err=True)
    return found.findings


def _checked(paths: Sequence[Path], book: Path | None, how: Looking) -> CheckedBook | CheckedPart:
    """The whole book, or what paths name in it: a folder that is a book stands for all of it."""
    if not paths or (len(paths) == 1 and _may_be_book(paths[0])):
        folder = one_book(paths[0] if paths else None, book)
        return check_book(how.opened(folder), progress("checking"))
    whole = how.opened(book or book_of(paths[0]))
    try:
        return check_part(whole, paths, progress("checking"))
    except NotInBookError as error:
        raise click.UsageError(str(error)) from error


def _changed(
    since: str, paths: Sequence[Path], book: Path | None, how: Looking
) -> CheckedBook | CheckedPart:
    """What changed since a revision, of the book that one path or --book names."""
    if len(paths) > 1 or (paths and not _may_be_book(paths[0])):
        raise click.UsageError("with --changed-since, name a book, not files of it")
    whole = how.opened(one_book(paths[0] if paths else None, book))
    try:
        return check_changed(whole, since, progress("checking"))
    except NoSuchRevisionError as error:
        raise click.UsageError(str(error)) from error


def _may_be_book(path: Path) -> bool:
    """Whether a path is a book, or none that anything else could be said of."""
    try:
        return holds_book(path) or not path.exists()
    except BookNotFoundError:  # it has two files of settings, which opening it says
        return True


def _for_forge(findings: Iterable[Finding]) -> list[Finding]:
    """The findings with paths from the top of the checkout, wherever the command stands in it."""
    top = Path(os.environ.get("GITHUB_WORKSPACE") or Path.cwd()).resolve()
    return [replace(finding, file=_from_top(finding.file, top)) for finding in findings]


def _from_top(shown: str, top: Path) -> str:
    try:
        return Path(shown).resolve().relative_to(top).as_posix()
    except ValueError:
        return shown  # of another checkout: no line of this one to show it at
