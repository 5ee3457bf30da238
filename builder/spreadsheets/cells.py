"""Cells and sheets as plain values, and the names people give to places in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["text", "number", "yes_no", "date", "formula", "error", "percent", "merged"]
"""What stood in a cell. `merged` is a cell that is joined with others."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that holds something; `row` and `column` are 1-based."""

    row: int
    column: int
    text: str
    kind: Kind = "text"


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet: its name ("" for a csv file) and its rows, each with its filled cells only."""

    name: str
    rows: tuple[tuple[Cell, ...], ...]


def address(row: int, column: int, sheet: str = "") -> str:
    """The name of a cell, such as C7, or pins!C7 with its sheet; both numbers 1-based."""
    letters = ""
    while column > 0:
        column, letter = divmod(column - 1, 26)
        letters = chr(ord("A") + letter) + letters
    place = f"{letters}{row}"
    return f"{sheet}!{place}" if sheet else place
