"""What can be asked of `new contributors`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option


@click.command(short_help="Register every handle of a book that nobody registered.")
@click.option("--dry-run", is_flag=True, help="Print the records instead of writing them.")
@book_option
def contributors(dry_run: bool, book: Path | None) -> None:
    """Register every handle of this book's own vehicles that nobody registered yet.

    Handles that nobody registered count together as one contributor. Each gets a record, as a
    shop, since its first visit: correct what is otherwise. Of handles that look like one another
    none is registered; you are told which, the exit code is then 3, or 1 when nothing was written.

    \b
    loombook new contributors --dry-run
    loombook new contributors
    """
    from builder.cli import registering

    registering.contributors(dry_run, book)
