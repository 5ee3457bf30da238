"""What can be asked of `merge`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option
from builder.cli.known_ids import completing


@click.command()
@click.argument("first", metavar="A", shell_complete=completing("vehicle"))
@click.argument("second", metavar="B", shell_complete=completing("vehicle"))
@click.option("--write", is_flag=True, help="Write the one record, and delete B.")
@book_option
def merge(first: str, second: str, write: bool, book: Path | None) -> None:
    """Show one record made of two of one car, A with all that B knows.

    Visits, readings, claims, pins, plugs and what A leaves open come from B; comments of B and what
    a record can say only once stand as comments at the end of A. Where both say something and it
    differs, nothing is merged: each place is named, and you type what is right in one of them.

    With --write, A is written, B deleted, and the settings say that B is called A now: jobs,
    sheets and saved pages that name B lead to A. The exit code is 1 when nothing could be merged, 3
    when it is written and the check has something to mend.

    \b
    loombook merge brantmoor-leto-2019 brantmoor-leto-2019-wagon
    loombook merge brantmoor-leto-2019 brantmoor-leto-2019-wagon --write
    """
    from builder.cli import merging

    merging.merge(first, second, write, book)
