"""Schema-valid data into record classes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, TypeVar

from builder.declaring.records import Field, fields_of

Record = TypeVar("Record")
Convert = Callable[[Any], Any]


def read(cls: type[Record], data: Mapping[str, Any]) -> Record:
    """Return the typed record for schema-valid data; what is left out takes its default.

    A word that stands in the place of a figure or a part becomes None, unless its type names it.
    """
    plan = _plan(cls)  # type: ignore[arg-type]
    return cls(**{name: convert(data[key]) for name, key, convert in plan if key in data})


@cache
def _plan(cls: type) -> tuple[tuple[str, str, Convert], ...]:
    return tuple((each.attribute, each.key, _convert(each)) for each in fields_of(cls))


def _convert(each: Field) -> Convert:
    """How the value of a key becomes that of its attribute."""
    inner, words = each.inner, each.words
    if each.spec.read is not None:
        return each.spec.read
    if each.item is not None:
        item = _convert(each.item)
        return lambda values: tuple(map(item, values))
    if inner is None and each.scalar in (None, str):
        return plain_name if each.scalar else lambda word: word

    def figure_part_or_word(one: Any) -> Any:
        if isinstance(one, str):
            return one if one in words else None
        return one if inner is None else read(inner, one)

    return figure_part_or_word


def plain_name(value: object) -> str:
    """A cavity or gauge as text: 4, 4.0 and "4" are one name."""
    return str(int(value) if isinstance(value, float) and value.is_integer() else value)
