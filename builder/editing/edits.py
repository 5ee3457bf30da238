"""Changes to a text, by place; everything between them stays as it is."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

BYTE_ORDER_MARK = "\ufeff"
_LINE_END = re.compile("\r\n|\r|\n")


class UneditableError(ValueError):
    """The text, the place or the value does not allow the change; the message says why."""


class OverlappingEditsError(ValueError):
    """Two edits want to change the same characters."""


class Edit(NamedTuple):
    """Replace the characters from `start` up to `end` (0-based, `end` not included) by `text`."""

    start: int
    end: int
    text: str


def apply_edits(text: str, edits: Iterable[Edit]) -> str:
    """Return the text with all edits made; places count in the text as it was.

    Two insertions at one place stay in the order given.

    Raises:
        OverlappingEditsError: two edits overlap, or an insertion lies inside a replacement.
        ValueError: a place is outside the text.
    """
    pieces, done = [], 0
    for edit in sorted(edits, key=lambda edit: (edit.start, edit.end)):
        if not 0 <= edit.start <= edit.end <= len(text):
            raise ValueError(f"{edit} is outside a text of {len(text)} characters")
        if edit.start < done:
            raise OverlappingEditsError(f"{edit} overlaps the edit before it")
        pieces += [text[done : edit.start], edit.text]
        done = edit.end
    return "".join([*pieces, text[done:]])


def line_end_of(text: str) -> str:
    """The line end that a text uses: that of its first line, else a line feed."""
    found = _LINE_END.search(text)
    return found.group() if found else "\n"


def line_start(text: str, index: int) -> int:
    """Where the line of a place starts."""
    start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    return 1 if start == 0 and text.startswith(BYTE_ORDER_MARK) and index > 0 else start


def line_stop(text: str, index: int) -> int:
    """Where the line of a place stops, before its line end."""
    found = _LINE_END.search(text, index)
    return found.start() if found else len(text)


def after_line(text: str, index: int) -> int:
    """Where the next line starts; the end of the text on the last line."""
    found = _LINE_END.search(text, index)
    return found.end() if found else len(text)
