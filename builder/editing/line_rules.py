"""House style that can be told line by line: ends, blanks, spaces, the schema line."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.editing.edits import BYTE_ORDER_MARK, Edit, UneditableError
from builder.editing.layout import Entry, Part, read_layout
from builder.editing.mending import expand_tabs
from builder.editing.style_fault import StyleFault, line_of
from builder.editing.writing import SCHEMA_LINE

SCHEMA_SIGN = "# yaml-language-server:"
_SCHEMA = re.compile(r"^# *yaml-language-server: *\$schema=(\S+)[ \t]*$", re.M)
_TRAILING = re.compile(r"[ \t]+(?=[\r\n]|\Z)")
_BLANK_LINES = re.compile(r"(?:(?<=\n)|\A)(?:[ \t]*\n){2,}")


def line_ends(text: str) -> list[StyleFault]:
    """A byte order mark, carriage returns, and a last line without its end or with many."""
    faults = []
    if text.startswith(BYTE_ORDER_MARK):
        faults.append(StyleFault(1, "a byte order mark stands first", (Edit(0, 1, ""),)))
    returns = list(re.finditer("\r\n?", text))
    if returns:
        edits = tuple(Edit(found.start(), found.end(), "\n") for found in returns)
        line = line_of(text, returns[0].start())
        faults.append(StyleFault(line, "lines end in a carriage return", edits))
    body = text.rstrip(" \t\r\n")
    if text[len(body) :].replace("\r\n", "\n") != "\n" and not returns:
        line = line_of(text, len(body))
        edit = Edit(len(body), len(text), "\n")
        faults.append(StyleFault(line, "the file does not end with one line end", (edit,)))
    return faults


def schema_line(text: str, schema_ref: str, *, correct: bool = True) -> list[StyleFault]:
    """The first line tells editors which schema the record has.

    Without `correct` a line that names the schema of the kind somewhere else may stay.
    """
    start = 1 if text.startswith(BYTE_ORDER_MARK) else 0
    wanted = SCHEMA_LINE + schema_ref
    found = _SCHEMA.search(text)
    end = "\r\n" if "\r\n" in text else "\n"
    if found is None:
        edit = Edit(start, start, wanted + end)
        return [StyleFault(1, "the schema line for editors is missing", (edit,))]
    name = schema_ref.rpartition("/")[2]
    if found.group(1) == schema_ref or (not correct and found.group(1).endswith(name)):
        return []
    line = line_of(text, found.start())
    edit = Edit(found.start(1), found.end(1), schema_ref)
    return [StyleFault(line, f"the schema line should name {schema_ref}", (edit,))]


def tabs(text: str) -> list[StyleFault]:
    """A tab before the first word of a line."""
    found = re.search(r"^ *\t", text, re.M)
    if found is None:
        return []
    try:
        new = expand_tabs(text)
    except UneditableError:
        return []
    if new == text:
        return []
    line = line_of(text, found.start())
    return [StyleFault(line, "lines are indented by tabs", (Edit(0, len(text), new),))]


def white_space(text: str) -> list[StyleFault]:
    """Spaces at the end of lines, and more than one empty line."""
    faults = [
        StyleFault(line_of(text, found.start()), "spaces at the end of the line", (edit,))
        for found in _TRAILING.finditer(text)
        if (edit := Edit(found.start(), found.end(), ""))
    ]
    if faults:
        return faults
    return [
        StyleFault(
            line_of(text, found.start()),
            "more than one empty line",
            (Edit(found.start(), found.end(), "\n" if found.start() else ""),),
        )
        for found in _BLANK_LINES.finditer(text)
    ]


def spacing(text: str) -> list[StyleFault]:
    """Spaces behind colons of open mappings, and inside brackets and behind their commas."""
    return [
        StyleFault(line_of(text, edit.start), "spaces are not as in the house style", (edit,))
        for edit in _spacing(text, read_layout(text))
    ]


def _spacing(text: str, part: Part) -> Iterator[Edit]:
    if part.flow and part.entries:
        yield from _inside_brackets(text, part)
    for entry in part.entries:
        if part.kind == "mapping" and not part.flow:
            yield from _behind_colon(text, entry)
        yield from _spacing(text, entry.part)


def _behind_colon(text: str, entry: Entry) -> Iterator[Edit]:
    between = text[entry.key_end : entry.part.start]
    if entry.part.end > entry.part.start and "\n" not in between and between != ": ":
        yield Edit(entry.key_end, entry.part.start, ": ")


def _inside_brackets(text: str, part: Part) -> Iterator[Edit]:
    """Spaces at the brackets go, and a comma has one behind it; columns made by hand stay.

    A scalar is measured without its comma, so only entries that end where they should are moved.
    """
    if text[part.start] not in "{[" or re.search(r",  ", text[part.start : part.end]):
        return
    first, last = part.entries[0], part.entries[-1]
    if re.fullmatch(" +", text[part.start + 1 : first.start]):
        yield Edit(part.start + 1, first.start, "")
    if last.part.end > last.part.start and re.fullmatch(" +", text[last.part.end : part.end - 1]):
        yield Edit(last.part.end, part.end - 1, "")
    for before, after in zip(part.entries, part.entries[1:], strict=False):
        between = text[before.part.end : after.start]
        if between == ",":
            yield Edit(after.start, after.start, " ")
        elif re.fullmatch(r" +, *", between):
            yield Edit(before.part.end, after.start, ", ")
