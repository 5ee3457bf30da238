"""Schema-valid data into record classes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, TypeVar

from builder.declaring.records import Field, fields_of
from builder.figures import plain_name

Record = TypeVar("Record")
Path = tuple[str | int, ...]
Convert = Callable[[Any, Path], Any]


def read(cls: type[Record], data: Mapping[str, Any], path: Path = ()) -> Record:
    """Return the typed record for schema-valid data; what is left out takes its default.

    A word that stands in the place of a figure or a part becomes None, unless its type names it.
    A class with an attribute `path` is told where in the record it stands.
    """
    plan, placed = _plan(cls)  # type: ignore[arg-type]
    keys = [each for each in plan if each[1] in data]
    given = {name: convert(data[key], (*path, key)) for name, key, convert in keys}
    return cls(**given, **({"path": path} if placed else {}))


@cache
def _plan(cls: type) -> tuple[tuple[tuple[str, str, Convert], ...], bool]:
    plan = tuple((each.attribute, each.key, _convert(each)) for each in fields_of(cls))
    return plan, hasattr(cls, "path")


def _convert(each: Field) -> Convert:
    """How the value of a key becomes that of its attribute."""
    inner, words, own = each.inner, each.words, each.spec.read
    if own is not None:
        return lambda value, path: own(value)
    if each.item is not None:
        item = _convert(each.item)
        return lambda values, path: tuple(item(one, (*path, at)) for at, one in enumerate(values))
    if inner is None and each.scalar in (None, str):
        return lambda word, path: plain_name(word) if each.scalar else word

    def figure_part_or_word(one: Any, path: Path) -> Any:
        if isinstance(one, str):
            return one if one in words else None
        if inner is not None:
            return read(inner, one, path)
        return int(one) if each.scalar is int else one  # to a schema 2.0 is a whole number too

    return figure_part_or_word
