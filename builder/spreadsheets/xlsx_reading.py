"""The cells of a workbook, after a look that it is safe.

The workbook is read without its styles being applied and without its joined cells being filled,
so that what is in memory is what was in the file.
"""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

import openpyxl

from builder.spreadsheets.cells import Cell, Kind, Sheet, address
from builder.spreadsheets.limits import (
    MOST_CELL_CHARACTERS,
    MOST_COLUMNS,
    MOST_ROWS,
    RefusedFileError,
)
from builder.spreadsheets.xlsx_safety import Area, Looked, look_at


def read_xlsx(content: bytes) -> list[Sheet]:
    """Return the sheets of a workbook.

    Raises:
        RefusedFileError: it is damaged, not safe, or too large.
    """
    looked = look_at(content)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions that are not read
            return _sheets(content, looked)
    except RefusedFileError:
        raise
    except Exception as error:
        # The library answers damage with whatever breaks first: any of a dozen errors.
        raise RefusedFileError(
            f"is no workbook that can be read ({type(error).__name__})",
            "open it in its program and save it as .xlsx again",
        ) from error


def _sheets(content: bytes, looked: dict[str, Looked]) -> list[Sheet]:
    book = openpyxl.load_workbook(io.BytesIO(content), read_only=True, keep_links=False)
    try:
        return [_sheet(sheet, looked) for sheet in book.worksheets]
    finally:
        book.close()


def _sheet(sheet: Any, looked: dict[str, Looked]) -> Sheet:
    part = str(sheet._worksheet_path).lstrip("/")
    joined = looked[part].joined if part in looked else []
    rows = sheet.iter_rows(max_row=MOST_ROWS, max_col=MOST_COLUMNS)
    return Sheet(sheet.title, tuple(_rows(rows, joined, sheet.title)))


def _rows(rows: Any, joined: list[Area], name: str) -> Iterator[tuple[Cell, ...]]:
    for row in rows:
        filled = [cell for cell in row if cell.value is not None]
        if filled:
            columns = _joined_columns(joined, int(filled[0].row))
            yield tuple(_cell(cell, columns, name) for cell in filled)


def _joined_columns(joined: list[Area], row: int) -> int:
    """A bit for each column in which a row has a joined cell: worked out once a row."""
    columns = 0
    for top, left, bottom, right in joined:
        if top <= row <= bottom and left <= MOST_COLUMNS:
            columns |= (2 << min(right, MOST_COLUMNS)) - (1 << left)
    return columns


def _cell(cell: Any, joined_columns: int, name: str) -> Cell:
    row, column = int(cell.row), int(cell.column)
    kind, text = _read(cell)
    if len(text) > MOST_CELL_CHARACTERS:
        place = address(row, column, name)
        raise RefusedFileError(
            f"has more than {MOST_CELL_CHARACTERS} characters in one cell", "shorten it", place
        )
    if joined_columns >> column & 1:
        kind = "merged"
    return Cell(row, column, text, kind)


def _read(cell: Any) -> tuple[Kind, str]:
    """The kind of thing in a cell and its text."""
    value = cell.value
    if cell.data_type in ("f", "e"):
        text = str(getattr(value, "text", value) or "=")
        return ("formula" if cell.data_type == "f" else "error"), text
    if isinstance(value, bool):
        return "yes_no", "yes" if value else "no"
    if isinstance(value, datetime | date):
        return "date", value.strftime("%Y-%m-%d")
    if isinstance(value, time | timedelta):
        return "date", str(value)
    if isinstance(value, int | float):
        return ("percent" if "%" in str(cell.number_format) else "number"), plain_number(value)
    return "text", str(value)


def plain_number(value: float) -> str:
    """A number without an exponent, as far as a meter or a ruler goes: 12 digits."""
    text = f"{Decimal(f'{value:.12g}'):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
