"""`loombook build`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import click

from builder.book import Book
from builder.cli.books import Looking, progress
from builder.cli.colours import told
from builder.cli.sentences import disk_sentence
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.own_fault import OwnFaultsError
from builder.pipeline.site.building import BrokenLinksError, BuiltSite, build_site
from builder.rendering.writing import AddressTakenError, NoPlaceError
from builder.rendering.zipping import refuse_place, write_zip
from builder.reporting import finding_text, summary

UNBUILT = (AddressTakenError, BrokenLinksError, OwnFaultsError)
"""What keeps a checked book from becoming a site: its faults are told, the old site stays."""


def build(
    book: Path | None,
    output: Path,
    site_address: str | None,
    archive: Path | None,
    how: Looking,
) -> None:
    """Write the site, or print what stands in the way and exit 1."""
    found = how.opened(book)
    if site_address:
        found = replace(found, site_address=site_address)
    _refuse_zip(output, archive)
    checked = check_book(found, progress("checking"))
    _refuse(checked)
    built = _built(checked, output)
    click.echo(
        f"{built.pages} pages of {built.records} records in {output}: open {output / 'index.html'}"
    )
    if archive:
        click.echo(f"{_zipped(output, archive) / 1e6:.1f} MB in {archive}")
    _warn_of_private(found)


def _built(checked: CheckedBook, output: Path) -> BuiltSite:
    try:
        return build_site(checked, output, progress("building"))
    except NoPlaceError as error:
        raise click.UsageError(str(error)) from error
    except UNBUILT as error:
        _tell_unbuilt(error)
        raise SystemExit(1) from error


def _zipped(output: Path, archive: Path) -> int:
    try:
        return write_zip(output, archive)
    except OSError as error:
        told = disk_sentence(error)
        raise click.ClickException(f"the site is written, its zip is not: {told}") from error


def _refuse_zip(output: Path, archive: Path | None) -> None:
    """Refuse a place where no zip can be before anything is built."""
    try:
        if archive:
            refuse_place(output, archive)
    except ValueError as error:
        raise click.UsageError(str(error)) from error


def _warn_of_private(book: Book) -> None:
    for folder in book.private_folders:
        click.echo(f"holds the private records of {folder}: to publish, build with --public")


def _refuse(checked: CheckedBook) -> None:
    """Print what stands in the way of a build and exit 1, if anything does."""
    failing = [finding for finding in checked.findings if finding.fails_check]
    for finding in failing:
        click.echo(told(finding), err=True)
    if failing:
        click.echo(summary(checked.findings, checked.records), err=True)
        raise SystemExit(1)


def _tell_unbuilt(error: Exception) -> None:
    """Say why a new site is not put in the place of the old one."""
    for problem in unbuilt_words(error):
        click.echo(problem, err=True)
    click.echo("no site was written; one that was there stays as it is", err=True)


def unbuilt_words(error: Exception) -> Iterable[str]:
    """What to say of an error of `UNBUILT`, line by line."""
    found = error.findings if isinstance(error, OwnFaultsError) else ()
    return map(finding_text, found) if found else map(str, error.args)
