"""A sheet that is to be written, and the way to the writer of workbooks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Laid:
    """How a range of cells is laid out: its words in a drop-down, or kept as text as typed."""

    first_row: int
    last_row: int
    column: int
    words: tuple[str, ...] = ()
    as_text: bool = False
    said: str = ""


@dataclass(frozen=True, slots=True)
class NewSheet:
    """A sheet to write; a `str` stays text, even when it looks like a number or a formula."""

    name: str
    rows: Sequence[Sequence[str | int | float | None]]
    laid: Sequence[Laid] = ()
    headed: bool = True
    widths: Mapping[int, int] = field(default_factory=dict)


def write_xlsx(sheets: Sequence[NewSheet]) -> bytes:
    """Return the bytes of a workbook with these sheets and, behind them, the words offered."""
    # Here, not above: loading the library takes longer than most commands that need no workbook.
    from builder.spreadsheets.xlsx_writing import workbook_bytes

    return workbook_bytes(sheets)
