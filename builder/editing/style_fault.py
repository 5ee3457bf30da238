"""One place that is not in the house style."""

from __future__ import annotations

from typing import NamedTuple

from builder.editing.edits import Edit


class StyleFault(NamedTuple):
    """The line (from 1), what is wrong there, and the edits that put it right together."""

    line: int
    message: str
    edits: tuple[Edit, ...]


def line_of(text: str, index: int) -> int:
    """The number of the line, from 1, that a place is on."""
    before = text[:index].replace("\r\n", "\n").replace("\r", "\n")
    return before.count("\n") + 1
