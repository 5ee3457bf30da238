"""Two spaces for each level; the dashes of a list two beyond their key."""

from __future__ import annotations

from collections.abc import Iterator

from builder.editing.edits import Edit, after_line, line_start
from builder.editing.layout import Part, read_layout
from builder.editing.style_fault import StyleFault, line_of

_STEP = 2


def indentation(text: str) -> list[StyleFault]:
    """Lines that start in another column than the house style asks for, comments with them."""
    if "\r" in text or "\t" in text:
        return []  # the steps before this one have not been possible
    shifts = dict(_shifts(text, read_layout(text), 0))
    faults, shift = [], 0
    for start, line in _lines(text):
        written = len(line) - len(line.lstrip(" "))
        shift = shifts.get(start, shift)
        if line.lstrip().startswith("#"):
            shift_here = _comment_shift(text, start, written, shifts, shift)
        else:
            shift_here = shift
        if shift_here and line.strip():
            new = max(written + shift_here, 0)
            edit = Edit(start, start + written, " " * new)
            message = f"starts in column {written + 1}, should be {new + 1}"
            faults.append(StyleFault(line_of(text, start), message, (edit,)))
    return [*faults, *_wide_dashes(text, read_layout(text))]


def _shifts(text: str, part: Part, column: int) -> Iterator[tuple[int, int]]:
    """For each line that an entry starts: how far it has to move."""
    if part.flow:
        return
    for entry in part.entries:
        line = line_start(text, entry.start)
        if not text[line : entry.start].strip():
            yield line, column - (entry.start - line)
        yield from _shifts(text, entry.part, column + _STEP)


def _comment_shift(text: str, start: int, written: int, shifts: dict[int, int], shift: int) -> int:
    """A comment in the column of the entry below moves with it, any other with the one above."""
    if written == 0:
        return 0
    below = after_line(text, start)
    while below < len(text) and below not in shifts:
        line = text[below : after_line(text, below)]
        if line.strip() and not line.lstrip().startswith("#"):
            return shift
        below = after_line(text, below)
    line = text[below : after_line(text, below)]
    same = len(line) - len(line.lstrip(" ")) == written
    return shifts.get(below, shift) if same else shift


def _wide_dashes(text: str, part: Part) -> Iterator[StyleFault]:
    """A dash with more than one space behind it; the lines below move by their own faults."""
    if part.flow:
        return
    for entry in part.entries:
        gap = text[entry.key_end : entry.part.start]
        if part.kind == "list" and len(gap) > 1 and not gap.strip(" "):
            edit = Edit(entry.key_end, entry.part.start, " ")
            line = line_of(text, entry.start)
            yield StyleFault(line, "more than one space behind the dash", (edit,))
        yield from _wide_dashes(text, entry.part)


def _lines(text: str) -> Iterator[tuple[int, str]]:
    start = 0
    while start < len(text):
        end = after_line(text, start)
        yield start, text[start:end].rstrip("\n")
        start = end
