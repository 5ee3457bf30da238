"""What can be wrong with a table: the findings of `import` that are about cells."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from builder.findings import CatalogueEntry, Severity


class Place(NamedTuple):
    """A cell: the sheet's name ("" in a csv file), row and column, 1-based."""

    sheet: str
    row: int
    column: int


@dataclass(frozen=True, slots=True)
class CellFault:
    """Something to say about a cell: a code of the catalogue below, what is wrong, what to type."""

    place: Place
    code: str
    message: str
    help: str = ""


class CellError(Exception):
    """A cell that cannot be taken: the code of its fault, what is wrong, what to type."""

    def __init__(self, code: str, message: str, help: str) -> None:
        super().__init__(message)
        self.code, self.help = code, help

    def at(self, place: Place) -> CellFault:
        """The fault with its place."""
        return CellFault(place, self.code, str(self), self.help)


def _entry(
    code: str, slug: str, title: str, severity: Severity, what: str, why: str, example: str
) -> CatalogueEntry:
    wrong, _, right = example.partition(" -> ")
    shown = f"Refused:\n\n    {wrong}\n\nAccepted:\n\n    {right}\n"
    fix = "Type what the help line of the finding says, and import the table again."
    return CatalogueEntry(code, slug, title, severity, what, why, shown, fix)


_STOP, _WARN, _NOTE = Severity.STOP, Severity.WARN, Severity.NOTE

CATALOGUE = (
    _entry(
        *("TAB101", "table-unreadable", "A file that is no table", _STOP),
        "A file that is neither text with columns nor a workbook, or is damaged.",
        "What cannot be read cannot be imported in part: half a car looks like a whole one.",
        "car.xls -> car.xlsx",
    ),
    _entry(
        *("TAB102", "table-unsafe", "A workbook that is not safe to read", _STOP),
        "Macros, links to other files, declared XML entities, or far more cells than a car has.",
        "A file from somebody else can run code, fetch from outside or fill the memory.",
        "car.xlsm with macros -> the two sheets copied into a new workbook",
    ),
    _entry(
        *("TAB103", "heading-wrong", "A heading that is missing, doubled or misspelt", _STOP),
        "No heading row, two columns of one meaning, or a heading nearly like a known one.",
        "A column that is silently left out is a reading that somebody took for nothing.",
        "asleeep V -> asleep V",
    ),
    _entry(
        *("TAB104", "column-not-read", "A column, sheet or row that is not read", _NOTE),
        "Something in the file that stands for no key of a record.",
        "So that nobody believes it has been imported.",
        "a column price -> the same, if it is meant for yourself alone",
    ),
    _entry(
        *("TAB105", "cell-became-date", "A cell that became a date", _STOP),
        "A day in a column of cavities, colours, words or figures.",
        "Spreadsheet programs turn 1-2 into the first of February. What was typed is lost.",
        "01-Feb -> the cavity again, after setting the column to the format text",
    ),
    _entry(
        *("TAB106", "cell-computed", "A formula, an error or a percentage", _STOP),
        "A cell that shows something else than it holds.",
        "Its value depends on the program that last opened the file.",
        "=12.4-0.1 -> 12.3",
    ),
    _entry(
        *("TAB107", "cells-merged", "Joined cells", _STOP),
        "Cells that are joined over several rows or columns.",
        "Only the first of them holds the value; for which rows it is meant is a guess.",
        "main plug, joined over rows 2 to 9 -> A in each row",
    ),
    _entry(
        *("TAB108", "cell-not-understood", "A cell that is not what its column asks for", _STOP),
        "A word that is not in the list, a figure that is none, a day in another form.",
        "Everything after the import believes it.",
        "twelve -> 12",
    ),
    _entry(
        *("TAB109", "cell-ambiguous", "A cell that can be read two ways", _STOP),
        "A short colour that stands for two, a comma that could part thousands.",
        "The wrong one of two colours is the wrong wire.",
        "bl -> black, or blue",
    ),
    _entry(
        *("TAB110", "pin-twice", "A pin that is described twice", _STOP),
        "A second row with the plug and cavity of an earlier one that says more than readings.",
        "One of the two has the wrong cavity, and only the person at the car knows which.",
        "two rows A 4 -> one of them A 5",
    ),
    _entry(
        *("TAB111", "cell-missing", "A cell that must be filled", _STOP),
        "A row without plug, cavity or function, or a reading that nobody is said to have taken.",
        "A reading without a person, a day and a car proves nothing.",
        "12.4 under run V, nothing under who -> 12.4 under run V, alder-pit-audio under who",
    ),
    _entry(
        *("TAB112", "default-taken", "Something the table does not say", _NOTE),
        "A field of the car that is left out and for which a default is written.",
        "The defaults say unknown or all; a person at the car may know better.",
        "no row bodies -> bodies, hatch",
    ),
    _entry(
        *("TAB113", "record-exists", "A record of that name is there already", _STOP),
        "The table's car has a record in the book.",
        "An import never writes over what others have measured.",
        "id of a record that exists -> another id",
    ),
    _entry(
        *("TAB114", "replacing-loses", "What a table cannot hold is lost", _WARN),
        "With --replace: keys of the record in the book that no table has a place for.",
        "They are gone from the new record; the history of the folder still has them.",
        "a record with how_to_tell -> the new record with how_to_tell typed in again",
    ),
    _entry(
        *("TAB115", "value-without-place", "A value in a column without a heading", _STOP),
        "A filled cell in the table whose column has no heading.",
        "A value that nobody can name is left out, and nobody notices.",
        "12.4 right of the last heading -> the same, with run V above it",
    ),
)
SEVERITY = {entry.id: entry.severity for entry in CATALOGUE}
SLUG = {entry.id: entry.slug for entry in CATALOGUE}
