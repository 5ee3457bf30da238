"""Values of declared types as plain JSON and back, by their types alone: no value runs code.

What is written is a list for each dataclass or named tuple, its fields in order. Whoever reads has
made sure before that it wrote the text itself: shapes are not looked at a second time.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, Literal

Read = Callable[[Any], Any]


class NotPlainError(TypeError):
    """A value or a type of which there is no plain form."""


def as_plain(value: Any) -> Any:
    """Return a value as lists, words and figures.

    Raises:
        NotPlainError: it holds something else.
    """
    if value is None or isinstance(value, str | bool):
        return value
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, int | float):
        return value
    if isinstance(value, tuple | list):
        return [as_plain(each) for each in value]
    if is_dataclass(value):
        return [as_plain(getattr(value, each.name)) for each in fields(value)]
    raise NotPlainError(f"no plain form of {type(value).__name__}")


@cache
def reader_of(hint: Any) -> Read:
    """Return what makes the value of a type from its plain form.

    Raises:
        NotPlainError: the type has no plain form.
    """
    reader = _reader(hint)
    return reader or _same


def _same(value: Any) -> Any:
    return value


def _reader(hint: Any) -> Read | None:
    """The same, None for what is its own plain form."""
    origin = typing.get_origin(hint)
    if hint in (str, int, float, bool, types.NoneType) or origin is Literal:
        return None
    if origin in (typing.Union, types.UnionType):
        return _of_union(typing.get_args(hint))
    if origin in (tuple, list):
        return _of_items(tuple if origin is tuple else list, typing.get_args(hint))
    if isinstance(hint, type) and issubclass(hint, Enum):
        return hint
    if isinstance(hint, type) and (is_dataclass(hint) or issubclass(hint, tuple)):
        return _of_fields(hint)
    raise NotPlainError(f"no plain form of {hint}")


def _of_union(kinds: tuple[Any, ...]) -> Read | None:
    readers = [reader for kind in kinds if (reader := _reader(kind)) is not None]
    if len(readers) > 1:
        raise NotPlainError(f"which of {kinds} it was is not written down")
    read = readers[0] if readers else None
    return read and (lambda value: read(value) if isinstance(value, list) else value)


def _of_items(kind: type, inner: tuple[Any, ...]) -> Read:
    items = [each for each in inner if each is not Ellipsis]
    if kind is tuple and Ellipsis not in inner:
        readers = [reader_of(each) for each in items]
        return lambda values: tuple(r(v) for r, v in zip(readers, values, strict=True))
    read = _reader(items[0])
    return kind if read is None else lambda values: kind(map(read, values))


def _of_fields(cls: type) -> Read:
    hints = typing.get_type_hints(cls)
    names = [each.name for each in fields(cls)] if is_dataclass(cls) else [*hints]
    readers = [(at, read) for at, name in enumerate(names) if (read := _reader(hints[name]))]
    in_order = not is_dataclass(cls) or not any(each.kw_only for each in fields(cls))

    def made(values: list[Any]) -> Any:
        given = [*values]
        for at, read in readers:
            given[at] = read(given[at])
        return cls(*given) if in_order else cls(**dict(zip(names, given, strict=True)))

    return made
