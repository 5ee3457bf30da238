"""What can be asked of `new`."""

from __future__ import annotations

from typing import get_args

import click

from builder.cli.faces.bay_sheets import bay_sheet
from builder.cli.faces.importing import table
from builder.cli.faces.new_records import NewRecordCommand
from builder.cli.faces.registering import contributors
from builder.cli.sentences import now_called
from builder.model.words import RecordKind


class _NewGroup(click.Group):
    """Kinds of records and tables, by their old names too."""

    def get_command(self, context: click.Context, name: str) -> click.Command | None:
        """Return the command of a name; an old one is told the new one."""
        return super().get_command(context, now_called(name, {"sheet": "table"}, "loombook new"))


@click.group(cls=_NewGroup, short_help="Begin a record, a table or a bay sheet.")
def new() -> None:
    """Begin a record, a table to fill (table), or a bay sheet (bay-sheet).

    A record is a vehicle, converter, amplifier, cable, housing, loom, interface,
    contributor or job.

    Asks only what is not given. Every question is an option of the kind's command, or a key of
    the file named by --answers. Nothing is overwritten. The exit code is 3 when the record is
    written and has findings that fail the check.

    \b
    loombook new vehicle
    loombook new cable --name "Twin 14" --use speaker_pair --size "14 awg" --jacket black \\
      --pairs "red black" --singles none
    """


for _kind in get_args(RecordKind):
    new.add_command(NewRecordCommand(_kind))
new.add_command(bay_sheet)
new.add_command(contributors)
new.add_command(table)
