"""Events to plain data and positions in one pass, collecting every refusal on the way.

A refused node still takes its place (as None, or left out when its key is refused), so
that reading goes on and the next fault is found as well. This is the hot path of the
whole builder: each record passes here about a thousand times.
"""

from __future__ import annotations

from typing import Any

from yaml.events import (
    AliasEvent,
    CollectionStartEvent,
    DocumentEndEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    StreamEndEvent,
)

from builder.loading import refusals
from builder.loading.characters import escaped_hidden_characters
from builder.loading.events import NextEvent
from builder.loading.refusals import ReadingEndedError, Refusals
from builder.loading.scalars import Scalar, UnusableNumberError, resolve_plain
from builder.source_map import Node, Position

DEEPEST_NESTING = 24
"""Mappings and lists that may stand inside each other; the top level is the first."""

# Scalars hold nothing, so all of them share these two; nobody writes into them.
_NO_KEYS: dict[str | int, Position] = {}
_NO_CHILDREN: dict[str | int, Node] = {}

# Half as dear as the named constructor; written out, not called through `_start`, in the
# two places nearly every line of a file passes.
_new_tuple = tuple.__new__


def _start(event: Any) -> Position:
    mark = event.start_mark
    return _new_tuple(Position, (mark.line + 1, mark.column + 1))


class Builder:
    """Builds the one document of a stream."""

    __slots__ = ("_found", "_has_question", "_next_event", "_text")

    def __init__(self, next_event: NextEvent, text: str, found: Refusals) -> None:
        self._next_event = next_event
        self._text = text
        self._has_question = "?" in text
        self._found = found

    def build(self) -> tuple[dict[str, Any] | None, Node]:
        """Return the data (None when it is no mapping) and its positions.

        Raises:
            yaml.YAMLError: the text is not YAML.
            ReadingEndedError: reading on would be useless; the refusal is recorded.
        """
        self._next_event()  # the start of the stream
        event = self._next_event()
        if isinstance(event, StreamEndEvent):
            self._found.add(Position(1, 1), self._found.empty)
            return None, Node(Position(1, 1))
        self._check_document_start(event)
        first = self._next_event()
        data, node = self._value(first, 0)
        self._check_top_level(first, data)
        self._check_end()
        return (data if type(data) is dict else None), node

    def _check_document_start(self, event: Any) -> None:
        if isinstance(event, DocumentStartEvent) and (event.version or event.tags):
            self._found.add(_start(event), refusals.directive(bool(event.version)))

    def _check_top_level(self, first: Any, data: Any) -> None:
        if isinstance(first, ScalarEvent) and not first.style and not first.value:
            self._found.add(_start(first), self._found.empty)
        elif not isinstance(first, MappingStartEvent | AliasEvent):
            self._found.add(_start(first), refusals.top_level_not_mapping(data))

    def _check_end(self) -> None:
        """Nothing may follow the document; what does is not looked into."""
        event = self._next_event()
        while isinstance(event, DocumentEndEvent):
            event = self._next_event()
        if isinstance(event, DocumentStartEvent):
            self._found.add(_start(event), refusals.several_documents())

    def _value(self, event: Any, depth: int) -> tuple[Any, Node]:
        kind = type(event)
        if kind is ScalarEvent:
            mark = event.start_mark
            place = _new_tuple(Position, (mark.line + 1, mark.column + 1))
            return self._scalar(event), Node(place, _NO_KEYS, _NO_CHILDREN)
        if kind is AliasEvent:
            self._found.add(_start(event), refusals.alias_used(event.anchor))
            return None, Node(_start(event))
        if event.anchor is not None or event.tag is not None:
            self._refuse_properties(event)
        if depth == DEEPEST_NESTING:
            self._found.add(_start(event), refusals.nested_too_deep(DEEPEST_NESTING))
            raise ReadingEndedError
        if kind is MappingStartEvent:
            return self._mapping(event, depth + 1)
        return self._sequence(event, depth + 1)

    def _mapping(self, start: Any, depth: int) -> tuple[dict[str, Any], Node]:
        data: dict[str, Any] = {}
        node = Node(_start(start))
        keys, children = node.keys, node.children
        next_event = self._next_event
        event = next_event()
        while type(event) is not MappingEndEvent:
            key = self._key(event, keys, depth)
            value, child = self._value(next_event(), depth)
            if key is not None:
                data[key] = value
                children[key] = child
            event = next_event()
        return data, node

    def _sequence(self, start: Any, depth: int) -> tuple[list[Any], Node]:
        data: list[Any] = []
        node = Node(_start(start), _NO_KEYS)
        children = node.children
        next_event = self._next_event
        event = next_event()
        while type(event) is not SequenceEndEvent:
            value, child = self._value(event, depth)
            children[len(data)] = child
            data.append(value)
            event = next_event()
        return data, node

    def _scalar(self, event: Any) -> Scalar:
        if event.anchor is not None or event.tag is not None:
            self._refuse_properties(event)
        text: str = event.value
        style = event.style
        if style:
            if style == '"':
                self._check_escapes(event)
            return text
        try:
            return resolve_plain(text)
        except UnusableNumberError as error:
            self._found.add(_start(event), refusals.unusable_number(text, error))
            return None

    def _key(self, event: Any, keys: dict[str | int, Position], depth: int) -> str | None:
        """The key as text, noted in `keys`; None when it is refused."""
        if type(event) is not ScalarEvent:
            self._refuse_key_node(event, depth)
            return None
        key = self._scalar(event)
        if type(key) is not str or not key.strip() or (key == "<<" and not event.style):
            at: Any = event.start_mark
            before = self._text[: at.index].rpartition("\n")[2]
            self._found.add(_start(event), refusals.unusable_key(event.value, key, before))
            return None
        if key in keys:
            self._found.add(_start(event), refusals.key_twice(key, keys[key].line))
            return None
        mark: Any = event.start_mark
        if self._has_question and self._text[mark.index - 1 : mark.index] == "?":
            self._found.add(_start(event), refusals.question_before_key(key))
        keys[key] = _new_tuple(Position, (mark.line + 1, mark.column + 1))
        return key

    def _refuse_key_node(self, event: Any, depth: int) -> None:
        if isinstance(event, CollectionStartEvent):
            self._found.add(_start(event), refusals.key_is_structure())
        self._value(event, depth)

    def _refuse_properties(self, event: Any) -> None:
        if event.anchor is not None:
            self._found.add(_start(event), refusals.anchor_used(event.anchor))
        if event.tag is not None:
            self._found.add(_start(event), refusals.tag_used(event.tag))

    def _check_escapes(self, event: Any) -> None:
        written = self._text[event.start_mark.index : event.end_mark.index]
        if "\\" in written:
            for character in escaped_hidden_characters(event.value, written):
                self._found.add(_start(event), refusals.hidden_character(character, True))
