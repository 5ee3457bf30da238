"""Where everything in the text of a record stands: the tree of its data with both ends.

The source map of the loader knows where a value starts; to change a text one must also know
where it stops, and in which style it is written.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Literal

import yaml
from yaml.events import (
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from builder.editing.edits import BYTE_ORDER_MARK, UneditableError, line_start
from builder.findings import DataPath
from builder.loading.events import NextEvent, open_events

_COLON = re.compile(r"\s*:")
PartKind = Literal["mapping", "list", "scalar"]


@dataclass(slots=True)
class Part:
    """One value: `text[start:end]` is all of it, comments behind it left out.

    `style` is "" for a plain scalar, else its quote or block sign; `word` is a scalar's text.
    """

    kind: PartKind
    start: int
    end: int
    flow: bool
    style: str = ""
    word: str = ""
    entries: list[Entry] = field(default_factory=list)

    def entry(self, key: str | int) -> Entry | None:
        """The entry of a key or index; None when there is none."""
        return next((entry for entry in self.entries if entry.key == key), None)


@dataclass(slots=True)
class Entry:
    """A key with its value, or a list item; `start` is that of the key or the dash."""

    key: str | int
    start: int
    key_end: int
    part: Part


class _Reader:
    def __init__(self, text: str, next_event: NextEvent) -> None:
        self.text = text
        self.shift = text.startswith(BYTE_ORDER_MARK)
        self.next = next_event

    def part(self, event: Any) -> Part:
        if isinstance(event, ScalarEvent):
            return self._scalar(event)
        start = event.start_mark.index + self.shift
        if isinstance(event, MappingStartEvent):
            return self._mapping(Part("mapping", start, start, bool(event.flow_style)))
        if isinstance(event, SequenceStartEvent):
            return self._list(Part("list", start, start, bool(event.flow_style)))
        raise UneditableError("an alias (*) stands for a value written elsewhere")

    def _scalar(self, event: Any) -> Part:
        start, end = event.start_mark.index + self.shift, event.end_mark.index + self.shift
        style = event.style or ""
        if style in ("|", ">"):
            end = start + len(self.text[start:end].rstrip())
        return Part("scalar", start, end, False, style, event.value)

    def _mapping(self, part: Part) -> Part:
        event = self.next()
        while not isinstance(event, MappingEndEvent):
            key = self.part(event)
            value = self.part(self.next())
            if _is_nothing(value):
                value.start = value.end = self._after_colon(key.end)
            part.entries.append(Entry(key.word, key.start, key.end, value))
            event = self.next()
        part.end = self._end(part, event)
        return part

    def _after_colon(self, key_end: int) -> int:
        """Where a value would start; in braces a key may stand without a colon."""
        found = _COLON.match(self.text, key_end)
        return found.end() if found else key_end

    def _list(self, part: Part) -> Part:
        event = self.next()
        column = part.start - line_start(self.text, part.start)
        while not isinstance(event, SequenceEndEvent):
            value = self.part(event)
            dash = value.start if part.flow else self._dash(value.start, column, part)
            if _is_nothing(value) and not part.flow:
                value.start = value.end = dash + 1
            part.entries.append(Entry(len(part.entries), dash, dash + 1, value))
            event = self.next()
        part.end = self._end(part, event)
        return part

    def _end(self, part: Part, event: Any) -> int:
        if part.flow:
            end: int = event.end_mark.index + self.shift
            return end
        return max((entry.part.end for entry in part.entries), default=part.start)

    def _dash(self, index: int, column: int, part: Part) -> int:
        """The dash of a block item whose value starts at `index`: going up to its line."""
        line = line_start(self.text, index)
        while line > part.start:
            place = line + column
            if place < index and self.text[place] == "-" and not self.text[line:place].strip():
                return place
            line = line_start(self.text, line - 1)
        return part.start


def read_layout(text: str) -> Part:
    """Return the tree of a record's text.

    Raises:
        UneditableError: it is not YAML, or not one mapping.
    """
    try:
        reader = _Reader(text, open_events(text.removeprefix(BYTE_ORDER_MARK)))
        reader.next(), reader.next()
        root = reader.part(reader.next())
    except (yaml.YAMLError, AttributeError, RecursionError) as error:
        raise UneditableError("the text cannot be read as YAML") from error
    if root.kind != "mapping":
        raise UneditableError("the text is not made of keys and values")
    return root


def part_at(root: Part, path: DataPath) -> Part:
    """The part at a path.

    Raises:
        UneditableError: there is none.
    """
    return entry_at(root, path).part if path else root


def entry_at(root: Part, path: DataPath) -> Entry:
    """The entry that the last step of a path names.

    Raises:
        UneditableError: there is none, or the path is empty.
    """
    *_, (_, entry) = [(None, None), *steps(root, path)]
    if entry is None:
        raise UneditableError("there is nothing before the whole record")
    return entry


def steps(root: Part, path: DataPath) -> Iterator[tuple[Part, Entry]]:
    """Each step of a path: the part it is taken in, and the entry it leads to.

    Raises:
        UneditableError: a step leads nowhere.
    """
    part = root
    for step in path:
        entry = part.entry(step)
        if entry is None:
            shown = ".".join(str(step) for step in path)
            raise UneditableError(f"there is no {shown} in this record")
        yield part, entry
        part = entry.part


def _is_nothing(part: Part) -> bool:
    return part.kind == "scalar" and not part.style and not part.word
