"""What can be asked of `evidence`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option, format_option
from builder.cli.forms import Form


@click.group()
def evidence() -> None:
    """Bring what was measured in the bay into the records of the book.

    \b
    loombook evidence add bay-sheet.yaml --dry-run
    loombook evidence add bay-sheet.yaml
    """


@evidence.command()
@click.argument("sheet", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--dry-run", is_flag=True, help="Say what would be added, and write nothing.")
@book_option
@format_option
def add(sheet: Path, dry_run: bool, book: Path | None, form: Form) -> None:
    """Add a filled bay sheet: readings to the vehicle's pins, results to the job.

    SHEET is a file exported by the phone's bay sheet, a .zip where photos came with it, or one that
    `loombook new bay-sheet` wrote. Photos are laid beside the job's record, without their metadata.
    Says how grades change, which reading would decide a new dispute, which jobs and plans used a
    pin that is trusted less now, and which can be built now. Comments and layout of the records
    stay. Adding a sheet twice changes nothing. The exit code is 1 when the sheet is refused, 3
    when it is added and the book has something to mend since.
    """
    from builder.cli import evidence

    evidence.add(sheet, dry_run, book, form)
