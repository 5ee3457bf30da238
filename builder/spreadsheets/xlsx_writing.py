"""Writing a workbook: wide enough columns, a frozen heading, drop-downs, cells kept as text."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from typing import Any

import openpyxl
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

from builder.spreadsheets.new_sheets import Laid, NewSheet

_WORDS = "words"
_HEAD = PatternFill("solid", fgColor="E8E8E8")


def workbook_bytes(sheets: Sequence[NewSheet]) -> bytes:
    """Return the bytes of a workbook with these sheets and, behind them, the words offered."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    places: dict[tuple[str, ...], str] = {}
    for new in sheets:
        _write(book.create_sheet(new.name), new, places)
    if places:
        _write_words(book.create_sheet(_WORDS), places)
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def _write(sheet: Any, new: NewSheet, places: dict[tuple[str, ...], str]) -> None:
    for row, values in enumerate(new.rows, 1):
        for column, value in enumerate(values, 1):
            if value not in (None, ""):
                _put(sheet.cell(row, column), value)
    for laid in new.laid:
        _lay(sheet, laid, places)
    if new.headed:
        _head(sheet)
    for column in range(1, sheet.max_column + 1):
        sheet.column_dimensions[get_column_letter(column)].width = new.widths.get(column, 14)


def _put(cell: Any, value: str | int | float | None) -> None:
    cell.value = value
    if isinstance(value, str):
        cell.data_type = "s"  # also a text that starts like a formula
        cell.alignment = Alignment(vertical="top", wrap_text="\n" in value)


def _head(sheet: Any) -> None:
    for cell in sheet[1]:
        cell.font, cell.fill = Font(bold=True), _HEAD
        cell.alignment = Alignment(wrap_text=True, vertical="top")
    sheet.freeze_panes = "C2" if sheet.max_column > 5 else "A2"


def _lay(sheet: Any, laid: Laid, places: dict[tuple[str, ...], str]) -> None:
    if laid.as_text:
        for row in range(laid.first_row, laid.last_row + 1):
            sheet.cell(row, laid.column).number_format = "@"
    if not laid.words:
        return
    letter = get_column_letter(len(places) + 1)
    place = places.setdefault(laid.words, f"{_WORDS}!${letter}$1:${letter}${len(laid.words)}")
    # A warning, not a stop: other spellings are read too, and the import says what it cannot read.
    offer = DataValidation("list", formula1=place, allow_blank=True, errorStyle="information")
    offer.promptTitle, offer.prompt, offer.showInputMessage = "", laid.said[:250], bool(laid.said)
    column = get_column_letter(laid.column)
    offer.add(f"{column}{laid.first_row}:{column}{laid.last_row}")
    sheet.add_data_validation(offer)


def _write_words(sheet: Any, places: Mapping[tuple[str, ...], str]) -> None:
    for column, words in enumerate(places, 1):
        for row, word in enumerate(words, 1):
            _put(sheet.cell(row, column), word)
    sheet.sheet_state = "hidden"
