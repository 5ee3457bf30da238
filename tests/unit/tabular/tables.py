"""A small table of a car, as text, for tests to damage."""

from __future__ import annotations

from builder.editing.tabular import Imported, from_tables
from builder.spreadsheets import address, read_csv

CAR = """\
#make,Zorvex
#model,Wold
#variant,"hatch, base"
#year from,2018
#year to,2021
#drive side,left
#data,invented
#hybrid,no
#factory amplifier,none
#restraint zones,"steering wheel, roof rails"
#protected sounds,none
#plug A housing,two-row-20-latch-top
#plug A shell colours,grey
#plug A read from,wire_side
"""
FIRST = CAR.count("\n") + 1
"""The row of the headings."""


def table(heads: str, *rows: str, car: str = CAR) -> bytes:
    return (car + "\n".join([heads, *rows]) + "\n").encode()


def read(heads: str, *rows: str, car: str = CAR) -> Imported:
    return from_tables([read_csv(table(heads, *rows, car=car))])


def told(imported: Imported) -> list[tuple[str, str]]:
    """The faults that stop, as (code, cell counted from the row of headings)."""
    return [
        (f.code, address(f.place.row - FIRST + 1, f.place.column))
        for f in imported.faults
        if f.code not in ("TAB104", "TAB112")
    ]


def pins(imported: Imported) -> list[dict[str, object]]:
    return imported.data["plugs"][0]["pins"]
