"""Which rows of a file are about the car, and which are the pins with their headings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from builder.editing.tabular.columns import Column
from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import Place
from builder.editing.tabular.headings import Wide, asked_back, column_of, near_heading
from builder.spreadsheets import Cell, Sheet

CAR: Final = "car"
PINS: Final = "pins"
MARK = "#"
_UNREAD = frozenset({"help", "words"})
_SEARCHED_ROWS = 30
_LEAST_HEADINGS = 2
Row = tuple[Cell, ...]


@dataclass(slots=True)
class PinTable:
    """The pins: what each column means, and the rows below the headings."""

    sheet: str
    columns: dict[int, Column | Wide] = field(default_factory=dict)
    ignored: set[int] = field(default_factory=set)
    rows: list[Row] = field(default_factory=list)
    heading_row: int = 1


@dataclass(slots=True)
class Parts:
    """A file taken apart: the rows of the car by sheet, and the pins when there are any."""

    car: list[tuple[str, Row]] = field(default_factory=list)
    pins: PinTable | None = None


def parts_of(sheets: Sequence[Sheet], draft: Draft) -> Parts:
    """Take the sheets of a file apart; what is not read is named in a note."""
    parts = Parts()
    pins_sheet = _pins_sheet(sheets)
    for sheet in sheets:
        name = sheet.name.strip().lower()
        if sheet is pins_sheet:
            _take_pins(sheet, parts, draft)
        elif name == CAR:
            parts.car += [(sheet.name, row) for row in sheet.rows if row and not _is_title(row)]
        elif name not in _UNREAD and any(sheet.rows):
            place = Place(sheet.name, 1, 1)
            draft.say(place, "TAB104", f'the sheet "{sheet.name}" is not read')
    return parts


def _pins_sheet(sheets: Sequence[Sheet]) -> Sheet | None:
    """The sheet named pins; else the one that is left when car and help are taken away."""
    named = [sheet for sheet in sheets if sheet.name.strip().lower() == PINS]
    others = [s for s in sheets if s.name.strip().lower() not in {*_UNREAD, CAR} and any(s.rows)]
    if named:
        return named[0]
    return others[0] if len(others) == 1 else None


_HEADS = ("field", "what", "key")


def _is_title(row: Row) -> bool:
    """The headings of the sheet car: field, value."""
    return row[0].text.strip().lower() in _HEADS and row[0].column == 1


def _take_pins(sheet: Sheet, parts: Parts, draft: Draft) -> None:
    marked = [row for row in sheet.rows if row and _is_marked(row)]
    parts.car += [(sheet.name, row) for row in marked]
    rows = [row for row in sheet.rows if row and not _is_marked(row) and not _is_blank(row)]
    heading = max(rows[:_SEARCHED_ROWS], key=_known_headings, default=())
    if _known_headings(heading) < _LEAST_HEADINGS:
        place = Place(sheet.name, rows[0][0].row if rows else 1, 1)
        draft.say(
            *(place, "TAB103", "has no row of headings"),
            "put plug, cavity, function above the pins, as loombook new table writes them",
        )
        return
    start = rows.index(heading)
    for row in rows[:start]:
        draft.say(
            _place(sheet, row[0]), "TAB104", f"row {row[0].row} above the headings is not read"
        )
    parts.pins = PinTable(sheet.name, rows=rows[start + 1 :], heading_row=heading[0].row)
    _read_headings(parts.pins, heading, draft)


def _is_marked(row: Row) -> bool:
    return row[0].column == 1 and row[0].text.lstrip().startswith(MARK)


def _is_blank(row: Row) -> bool:
    return not any(cell.text.strip() for cell in row)


def _known_headings(row: Row) -> int:
    return sum(column_of(cell.text) is not None for cell in row)


def _place(sheet: Sheet, cell: Cell) -> Place:
    return Place(sheet.name, cell.row, cell.column)


def _read_headings(table: PinTable, heading: Row, draft: Draft) -> None:
    seen: dict[Column | Wide, Cell] = {}
    for cell in heading:
        place = Place(table.sheet, cell.row, cell.column)
        if not cell.text.strip():
            continue
        meaning = column_of(cell.text)
        if meaning is None:
            table.ignored.add(cell.column)
            _say_unknown(draft, place, cell.text.strip())
        elif meaning in seen:
            table.ignored.add(cell.column)
            draft.say(
                *(place, "TAB103", f'"{cell.text}" means the same as "{seen[meaning].text}"'),
                "keep one of the two columns, or name one of them otherwise",
            )
        else:
            seen[meaning] = cell
            table.columns[cell.column] = meaning
    _say_missing(table, draft)


def _say_unknown(draft: Draft, place: Place, text: str) -> None:
    near, between = near_heading(text), asked_back(text)
    if between:
        names = " or ".join(f"{state} V" for state in between)
        draft.say(place, "TAB103", f'"{text}" could be {" or ".join(between)}', f"type {names}")
    elif near:
        draft.say(place, "TAB103", f'"{text}" is no heading', f"did you mean {near}?")
    else:
        draft.say(place, "TAB104", f'the column "{text[:60]}" is not read')


_NEEDED = ("plug", "cavity", "function")
"""Columns that a table of pins cannot do without."""


def _say_missing(table: PinTable, draft: Draft) -> None:
    there = {column.heading for column in table.columns.values() if isinstance(column, Column)}
    for heading in _NEEDED:
        if heading not in there:
            place = Place(table.sheet, table.heading_row, 1)
            draft.say(place, "TAB103", f"has no column {heading}", f"add a column {heading}")


def without_heading(table: PinTable) -> Iterator[Cell]:
    """Yield the filled cells of the pins that stand under no heading at all."""
    for row in table.rows:
        for cell in row:
            known = cell.column in table.columns or cell.column in table.ignored
            if not known and cell.text.strip():
                yield cell
