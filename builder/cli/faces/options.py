"""Options that several commands share."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

if TYPE_CHECKING:
    from builder.cli.extra_packages import Extra

_TODAY: Final = "today"
_FOLDER = click.Path(path_type=Path)

book_option = click.option(
    "--book",
    "-b",
    type=_FOLDER,
    metavar="FOLDER",
    help="Folder of records.  [default: ./pinouts, else this folder]",
)
book_argument = click.argument("named", required=False, type=_FOLDER, metavar="[BOOK]")
"""The same for a command that is about the whole book, without typing --book."""

no_store_option = click.option(
    "--no-store",
    is_flag=True,
    help="Work everything out anew. Else what nothing changed for since the last time is taken "
    "from the store of the book, its folder .loombook, which may be deleted at any time.",
)
public_option = click.option(
    "--public",
    is_flag=True,
    help="Leave the private folders of the book out, as if they were not there.",
)
format_option = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="text for people, json for programs.",
)


def need_extra(extra: Extra) -> None:
    """Return where what an extra brings is there; else exit with one line that says what to type.

    Who prints help does not wait for what asks after installed packages.
    """
    from builder.cli.extra_packages import need_packages

    need_packages(extra)


def one_book(named: Path | None, book: Path | None) -> Path | None:
    """Return the folder that was typed as BOOK or after --book; exit 2 when both were."""
    if named is not None and book is not None:
        raise click.UsageError(f"name the book once: {named}, or --book {book}")
    return named or book


def _day(context: click.Context, option: click.Parameter, given: str | None) -> str:
    """The day as the records write it; only `today` looks at a clock."""
    if given is None or given == _TODAY:
        return "" if given is None else date.today().isoformat()
    try:
        return date.fromisoformat(given).isoformat()
    except ValueError:
        raise click.BadParameter("type a day such as 2024-06-20, or today") from None


as_of_option = click.option(
    "--as-of",
    metavar="DAY",
    callback=_day,
    help="The day to look at the book from, YYYY-MM-DD or today: what is dated after it is a "
    "fault, and ages are counted to it.  [default: the newest date in the book]",
)
