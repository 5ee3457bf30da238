"""Text tables: which mark parts the columns and which letters it is written in are found out.

UTF-8 with or without its mark, UTF-16 with its mark, else Windows-1252, the letters that
spreadsheet programs of western Europe write (common practice, no source).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence

from builder.spreadsheets.cells import Cell, Sheet, address
from builder.spreadsheets.limits import MOST_CELL_CHARACTERS, RefusedFileError, refuse_place

_MARKS = ("\t", ";", ",")
_SEARCHED = 500
_UTF16 = (b"\xff\xfe", b"\xfe\xff")


def read_csv(content: bytes) -> Sheet:
    """Return the one sheet of a text table.

    Raises:
        RefusedFileError: it is not text, or a quote is never closed.
    """
    text = _decoded(content)
    if "\0" in text:
        raise RefusedFileError("is not text", "save the table as .csv or .xlsx again")
    lines = io.StringIO(text, newline="")
    reader = csv.reader(lines, delimiter=_mark_of(text), strict=True)
    try:
        return Sheet("", tuple(_rows(reader)))
    except csv.Error as error:
        place = address(reader.line_num, 1)
        raise RefusedFileError(
            f"cannot be read as a table: {error}", "close the quote, or take it out", place
        ) from error


def _rows(reader: Iterator[list[str]]) -> Iterator[tuple[Cell, ...]]:
    for row, texts in enumerate(reader, 1):
        yield tuple(_cell(row, column, text) for column, text in enumerate(texts, 1) if text)


def _cell(row: int, column: int, text: str) -> Cell:
    place = address(row, column)
    refuse_place(row, column, place)
    if len(text) > MOST_CELL_CHARACTERS:
        raise RefusedFileError(
            f"has more than {MOST_CELL_CHARACTERS} characters in one cell", "shorten it", place
        )
    return Cell(row, column, text, "formula" if _is_formula(text) else "text")


def _is_formula(text: str) -> bool:
    """A text that a spreadsheet program computes when it opens the file; no figure does."""
    return text.startswith(("=", "@")) and len(text) > 1


def _decoded(content: bytes) -> str:
    marked = content.startswith(_UTF16)
    for encoding in ("utf-16",) if marked else ("utf-8-sig", "cp1252"):
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise RefusedFileError("is not text in letters that are known", "save it as UTF-8")


def _mark_of(text: str) -> str:
    """The mark that parts the columns.

    A tab or a semicolon when it stands in half of the lines that have any mark at all: commas
    stand in figures and sentences too, so they are the last to be believed.
    """
    bare = "".join(text.split('"')[::2])  # what stands outside quotes
    lines = [line for line in bare.splitlines()[:_SEARCHED] if any(mark in line for mark in _MARKS)]
    return next((m for m in _MARKS if 2 * sum(m in line for line in lines) >= len(lines) > 0), ",")


def write_csv(rows: Sequence[Sequence[str]]) -> bytes:
    """Return a text table with commas, in UTF-8 with its mark so that every program knows it."""
    lines = (",".join(_quoted(text) for text in row) + "\r\n" for row in rows)
    return b"\xef\xbb\xbf" + "".join(lines).encode("utf-8")


def _quoted(text: str) -> str:
    """A cell in quotes where any mark is in it, so that no other mark is taken for the one."""
    if not any(mark in text for mark in (*_MARKS, '"', "\n", "\r")):
        return text
    doubled = text.replace('"', '""')
    return f'"{doubled}"'
