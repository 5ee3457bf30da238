"""What can be asked of `diff`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option
from builder.cli.forms import Form

_PATH = click.Path(path_type=Path, exists=True)


@click.command()
@click.argument("old", type=_PATH, required=False)
@click.argument("new", type=_PATH, required=False)
@click.option(
    "--git",
    "revision",
    metavar="REVISION",
    help="Compare the book as it was then with the book as it is now.",
)
@book_option
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "markdown"]),
    default="text",
    show_default=True,
    help="text for people, json for programs, markdown for a forge's summary of a proposal.",
)
def diff(
    old: Path | None, new: Path | None, revision: str | None, book: Path | None, form: Form
) -> None:
    """Say what changed from OLD to NEW: pins, grades, and what each plan would build otherwise.

    OLD and NEW are two folders of records, or two files of one kind; the plans of single files
    are made with the parts of the book where you stand, or of --book. With --git that book is
    compared; it may be named as OLD too. The exit code is 0 when nothing changed, 1 when something
    did.

    \b
    loombook diff yesterday/pinouts pinouts
    loombook diff quern-old.yaml quern-new.yaml
    loombook diff --git HEAD~3
    loombook diff --git HEAD~3 --book pinouts
    """
    from builder.cli import comparing

    comparing.diff(old, new, revision, book, form)
