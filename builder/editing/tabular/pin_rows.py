"""The rows of the pins: one row a pin, further rows for more readings of the same pin."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from builder.editing.tabular.colours import read_colours
from builder.editing.tabular.columns import PIN, Column, Group
from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import CellError, Place
from builder.editing.tabular.headings import Wide
from builder.editing.tabular.parts import PinTable, Row
from builder.editing.tabular.values import read_cell, refuse_odd, written_once
from builder.findings import DataPath
from builder.model.said import Said, said
from builder.model.said.meaning import EMPTY
from builder.model.said.pin_words import Phrase, pin_words
from builder.model.said.units import READ_UNITS
from builder.model.words import Quantity
from builder.schema_check.meant import unit_of_quantity
from builder.spreadsheets import Cell, address

EXAMPLE = "example"


@dataclass(slots=True)
class PinRow:
    """One row, read: its pin, and what its columns say by group; values with their places."""

    plug: str
    cavity: int | str
    place: Place
    empty: bool = False
    doubtful: bool = False
    """Whether it has a function that could not be taken."""
    values: dict[Group, dict[DataPath, Any]] = field(default_factory=dict)
    places: dict[tuple[Group, DataPath], Place] = field(default_factory=dict)
    wide: list[tuple[Wide, Any, Place]] = field(default_factory=list)

    def of(self, group: Group) -> dict[DataPath, Any]:
        """What the columns of a group say, by key path within the group."""
        return self.values.get(group, {})

    def put(self, group: Group, key: DataPath, value: Any, place: Place) -> None:
        """Keep a value of a group."""
        self.values.setdefault(group, {})[key] = value
        self.places[group, key] = place

    def nested(self, group: Group) -> dict[str, Any]:
        """The values of a group as the record nests them."""
        data: dict[str, Any] = {}
        for path, value in self.of(group).items():
            at = data
            for step in path[:-1]:
                at = at.setdefault(str(step), {})
            at[str(path[-1])] = value
        return data


def read_rows(table: PinTable, draft: Draft) -> list[PinRow]:
    """Return the rows that name a plug and a cavity; every other filled row is a fault.

    A row that is filled in columns that are not read alone is counted.
    """
    _count_passed_over(table, draft)
    rows = (_read_row(table, row, draft) for row in table.rows)
    return [row for row in rows if row is not None]


def _count_passed_over(table: PinTable, draft: Draft) -> None:
    filled = [[cell for cell in row if cell.text.strip()] for row in table.rows]
    passed = [row[0] for row in filled if row and not any(c.column in table.columns for c in row)]
    if passed:
        rows = "1 row is" if len(passed) == 1 else f"{len(passed)} rows are"
        place = Place(table.sheet, passed[0].row, passed[0].column)
        draft.say(place, "TAB104", f"{rows} filled only in columns that are not read, from here on")


def _read_row(table: PinTable, cells: Row, draft: Draft) -> PinRow | None:
    filled = [c for c in cells if c.column in table.columns and c.text.strip()]
    if not filled:
        return None
    if _is_example(table, filled):
        draft.say(Place(table.sheet, filled[0].row, 1), "TAB104", "the example row is not read")
        return None
    row = _named_row(table, filled, draft)
    for cell in filled:
        _read_cell(table, cell, row, draft)
    return row if row.plug and row.cavity else None


def _is_example(table: PinTable, filled: list[Cell]) -> bool:
    return any(
        getattr(table.columns[cell.column], "key", ()) == ("plug",)
        and cell.text.strip().lower().startswith(EXAMPLE)
        for cell in filled
    )


_WHERE = ("plug", "cavity")
"""The columns that say which cavity a row is about."""


def _named_row(table: PinTable, filled: list[Cell], draft: Draft) -> PinRow:
    """The row with its plug and cavity; a fault for each that is missing."""
    found: dict[str, Any] = {}
    row = PinRow("", "", Place(table.sheet, filled[0].row, filled[0].column))
    for cell in filled:
        column = table.columns[cell.column]
        if isinstance(column, Column) and column.group == "where":
            key = str(column.key[0])
            place = Place(table.sheet, cell.row, cell.column)
            found[key] = draft.attempt(place, lambda c=cell, a=column.at: read_cell(c, a))  # type: ignore[misc]
            row.place = place
    for key in _WHERE:
        if key not in found and any(c.heading == key for c in _columns(table)):
            column_number = next(n for n, c in table.columns.items() if _heading(c) == key)
            place = Place(table.sheet, row.place.row, column_number)
            draft.say(place, "TAB111", f"the {key} is missing", f"type the {key} of this row")
    row.plug, row.cavity = found.get("plug") or "", found.get("cavity") or ""
    return row


def _columns(table: PinTable) -> list[Column]:
    return [column for column in table.columns.values() if isinstance(column, Column)]


def _heading(column: Column | Wide) -> str:
    return column.heading


def _read_cell(table: PinTable, cell: Cell, row: PinRow, draft: Draft) -> None:
    column = table.columns[cell.column]
    place = Place(table.sheet, cell.row, cell.column)
    if isinstance(column, Wide):
        at = (*PIN, "readings", 0, column.beside)
        unit = unit_of_quantity(column.quantity) if column.beside == "value" else ""
        if unit and (fault := _other_volts(cell.text, column.quantity)):
            draft.attempt(place, fault)
            return
        value = draft.attempt(place, lambda: read_cell(cell, at, unit))
        if value is not None:
            row.wide.append((column, value, place))
    elif column.key == ("function",):
        row.doubtful = not draft.attempt(place, lambda: _function(cell, row, place))
    elif column.key == ("colours",):
        draft.attempt(place, lambda: _colours(cell, row, place))
    elif column.group != "where":
        value = draft.attempt(place, lambda: read_cell(cell, column.at))
        if value is not None:
            group, key = column.group, column.key
            draft.attempt(place, lambda: _put_once(row, group, key, value, place))


def _put_once(row: PinRow, group: Group, key: DataPath, value: Any, place: Place) -> None:
    """Keep a value unless another column of the row has said it; that must agree."""
    said = row.of(group).get(key)
    if said is not None and said != value:
        earlier = row.places[group, key]
        where = address(earlier.row, earlier.column, earlier.sheet)
        raise CellError("TAB109", f"says {value}, but {where} says {said}", "keep one of them")
    row.put(group, key, value, place)


_SAME_VOLTS = "put it under the heading of its kind, AC (V) or (V)"
_SPEAKER = Phrase("function", "speaker", Said(("speaker",)))


def _function(cell: Cell, row: PinRow, place: Place) -> bool:
    """Take the function; `fl+` is channel and polarity too, `empty` a cavity without terminal."""
    refuse_odd(cell)
    text = cell.text.strip().lower()
    if said("function", text).means == (EMPTY,):
        row.empty = True
        return True
    words = pin_words(text)
    if words.of("channel") and words.of("leg") and not words.left:
        for phrase in (
            *(words.of("function") or [_SPEAKER]),
            *words.of("channel"),
            *words.of("leg"),
        ):
            row.put("pin", (phrase.kind,), written_once(phrase.written, phrase.meant), place)
        return True
    row.put("pin", ("function",), read_cell(cell, (*PIN, "function")), place)
    return True


def _colours(cell: Cell, row: PinRow, place: Place) -> None:
    refuse_odd(cell)
    if cell.kind == "date":
        read_cell(cell, (*PIN, "wire", "base"))
    base, stripe = read_colours(cell.text)
    for key, colour in (("base", base), ("stripe", stripe)):
        if colour is not None:
            _put_once(row, "pin", ("wire", key), colour, place)


def _other_volts(text: str, quantity: Quantity | None) -> Callable[[], None] | None:
    """Who says that a figure is of the other kind of volts than its heading, or None."""
    unit = re.sub(r"[^a-z]", "", text.lower())
    read = READ_UNITS.get(unit, (quantity, 1.0))[0]
    if not (quantity == "dc_v" and read == "ac_v") and not (
        quantity == "ac_v" and unit.endswith("dc")
    ):
        return None

    def refuse() -> None:
        raise CellError(
            "TAB108", f'"{text}" is another kind of volts than its heading', _SAME_VOLTS
        )

    return refuse
