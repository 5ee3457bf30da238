"""What of a declared class one cell can say: the headings of tables, made of the declarations."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.declaring import Field, fields_of
from builder.editing.tabular.words import plain
from builder.findings import DataPath

_LONGEST_SYMBOL = 3
"""Longer units are words, like step: the heading says them anyway."""


class Held(NamedTuple):
    """A key that one cell can say: where it is, its heading, other names that are read."""

    path: tuple[str, ...]
    heading: str
    others: tuple[str, ...]


def held_keys(cls: type, words: tuple[str, ...] = (), path: tuple[str, ...] = ()) -> Iterator[Held]:
    """Yield the keys of a record class and of its parts; lists of records have rows of their own.

    `words` stand in front of the heading: those of the parts that the key lies in.
    """
    for each in fields_of(cls):
        here = (*path, each.key)
        if each.item and each.item.inner:
            continue
        if each.inner:
            yield from held_keys(each.inner, (*words, _own(each)), here)
        else:
            said = (*words, _own(each), f"({_symbol(each)})" if _symbol(each) else "")
            yield Held(here, " ".join(word for word in said if word), each.spec.column[1:])


def lists_in(cls: type, held: frozenset[str], path: DataPath = ()) -> Iterator[DataPath]:
    """Yield where a class has lists of records; those of the keys in `held` are gone through."""
    for each in fields_of(cls):
        here = (*path, each.key)
        is_list = each.item is not None
        if each.inner is not None and is_list and each.key not in held:
            yield here
        elif each.inner is not None:
            yield from lists_in(each.inner, held, (*here, 0) if is_list else here)


def _own(each: Field) -> str:
    """What a key adds to the heading: declared, or its own words without the unit."""
    words = each.key.split("_")
    return (
        each.spec.column[0]
        if each.spec.column
        else " ".join(words[: -1 if _symbol(each) else None])
    )


def _symbol(each: Field) -> str:
    """The unit behind the heading, where the key ends in it."""
    form = each.spec.form.schema if each.spec.form else {}
    unit = str(each.spec.unit or form.get("unit", ""))
    ends = each.key.rpartition("_")[2] == plain(unit)
    return unit if ends and len(unit) <= _LONGEST_SYMBOL else ""
