"""`loombook new contributors`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import opened_to_write
from builder.cli.exit_codes import REFUSED, WRITTEN_WITH_FINDINGS
from builder.pipeline.changing.registering import HeldBack, registering, write_registered


def contributors(dry_run: bool, book: Path | None) -> None:
    """Write a record for each handle that nobody registered, and tell those held back."""
    found = registering(opened_to_write(book, dry_run))
    if not dry_run:
        write_registered(found)
    for path, text in found.texts.items():
        click.echo(text if dry_run else f"{shown_path(path)} is written")
    for each in found.held_back:
        click.echo(_held_back(each), err=dry_run)
    written = bool(found.texts) and not dry_run
    if not found.texts and not found.held_back:
        click.echo("every handle of this book is registered already")
    elif written:
        click.echo("next: correct names and kinds in these files, then run: loombook check")
    if found.held_back:
        raise SystemExit(WRITTEN_WITH_FINDINGS if written else REFUSED)


def _held_back(each: HeldBack) -> str:
    return (
        f"{each.handle} is not registered: it looks like {each.like}. If it is one shop, type one "
        f"of the two wherever they stand; if they are two, register it by: loombook new "
        f"contributor --id {each.handle}, and name each under not_same_as of the other"
    )
