"""What can be asked of `check`."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import click

from builder.cli.faces.options import (
    as_of_option,
    book_option,
    no_store_option,
    public_option,
)
from builder.cli.forms import REPORTS, Form

_OLD_NAME: Final = "github"


class FormatChoice(click.Choice[str]):
    """The formats of `check`; the name that one had is taken too, so that a forge's jobs go on."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return the format of a name."""
        if value == _OLD_NAME:
            click.echo("--format github is called --format annotations now", err=True)
            value = "annotations"
        return super().convert(value, param, ctx)


@click.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path), metavar="[BOOK|PATHS]...")
@book_option
@click.option(
    "--format",
    "form",
    type=FormatChoice(REPORTS),
    default="text",
    show_default=True,
    help="text for people, json for programs, annotations for remarks on a pull request.",
)
@click.option(
    "--all",
    "everything",
    is_flag=True,
    help="Print the warnings and notes of a shared book too, not only their number.",
)
@click.option(
    "--signatures",
    is_flag=True,
    help="Verify what contributors signed, with ssh-keygen and their keys in contributors.",
)
@public_option
@as_of_option
@no_store_option
@click.option(
    "--verbose",
    "-v",
    is_flag=True,
    help="Say how much was looked at anew, and what the store of the book takes of the disk.",
)
@click.option(
    "--changed-since",
    "since",
    metavar="REVISION",
    help="Check only what the book has otherwise than at this git revision, and what that touches.",
)
def check(
    paths: tuple[Path, ...],
    book: Path | None,
    form: Form,
    everything: bool,
    signatures: bool,
    public: bool,
    as_of: str,
    no_store: bool,
    verbose: bool,
    since: str | None,
) -> None:
    """Check every record: its shape, electrical law, and the other records.

    Each finding names file:line:column, what is wrong, and what to type. The exit code is 1
    when a stop or fix is left that its record does not accept with a reason. Of a shared book
    that this one draws on, what fails is printed, and the rest counted.

    PATHS are record files or folders of a book: then it is about those, the records that rest on
    them, down to the jobs, and those that they name.

    \b
    loombook check
    loombook check my-book --format json
    loombook check pinouts/vehicles/ostrel
    loombook check pinouts/housings/block-c-20.yaml
    loombook check --as-of today
    loombook check --changed-since HEAD~1
    loombook check --signatures
    """
    from builder.cli import checking
    from builder.cli.books import Looking

    how = Looking(public, as_of, not no_store)
    checking.check(paths, book, form, everything, signatures, how, since, verbose)
