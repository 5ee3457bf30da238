"""Cells with characters that nobody can see: named, and shown by their code point."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.editing.tabular.draft import Draft
from builder.editing.tabular.faults import Place
from builder.loading.characters import hidden_characters, name_character
from builder.spreadsheets import Cell, Sheet

_HARD_SPACE = "\u00a0"


def visible(sheets: Sequence[Sheet], draft: Draft) -> list[Sheet]:
    """Return the sheets with every hidden character taken out and named in a fault.

    The space that does not break, which tables copied from pages are full of, is a space.
    """
    return [
        replace(
            sheet,
            rows=tuple(tuple(_visible(cell, sheet, draft) for cell in row) for row in sheet.rows),
        )
        for sheet in sheets
    ]


def _visible(cell: Cell, sheet: Sheet, draft: Draft) -> Cell:
    text = cell.text.replace(_HARD_SPACE, " ").replace("\r\n", "\n").replace("\r", "\n")
    hidden = list(dict.fromkeys(character for character, _ in hidden_characters(text)))
    if hidden:
        names = ", ".join(map(name_character, hidden))
        place = Place(sheet.name, cell.row, cell.column)
        draft.say(place, "TAB108", f"holds what nobody can see: {names}", "type the cell again")
    for character in hidden:
        text = text.replace(character, "")
    return replace(cell, text=text) if text != cell.text else cell
