"""How every record is shown, compared and hashed: by its attributes, as a dataclass is.

`dataclass` writes these three for each class and compiles them, which for all records takes a
tenth of the time in which a command starts. Here they are written once and do the same.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from functools import cache
from operator import attrgetter
from typing import Any


def shown(one: Any) -> str:
    """Return class and attributes, as `dataclass` does."""
    said = ", ".join(f"{name}={getattr(one, name)!r}" for name in _shown(one.__class__))
    return f"{one.__class__.__qualname__}({said})"


def same(one: Any, other: Any) -> Any:
    """Whether two of one class have the same attributes, those of fields that are compared."""
    if one.__class__ is not other.__class__:
        return NotImplemented
    compared = _compared(one.__class__)
    return compared(one) == compared(other)


def hashed(one: Any) -> int:
    """Return the hash of the attributes that are compared."""
    return hash(_hashed(one.__class__)(one))


METHODS: dict[str, Callable[..., Any]] = {"__repr__": shown, "__eq__": same, "__hash__": hashed}


@cache
def _shown(cls: type[Any]) -> tuple[str, ...]:
    return tuple(each.name for each in fields(cls) if each.repr)


@cache
def _compared(cls: type[Any]) -> Callable[[Any], tuple[Any, ...]]:
    return _taking([each.name for each in fields(cls) if each.compare])


@cache
def _hashed(cls: type[Any]) -> Callable[[Any], tuple[Any, ...]]:
    counted = ((each, each.compare if each.hash is None else each.hash) for each in fields(cls))
    return _taking([each.name for each, counts in counted if counts])


def _taking(names: list[str]) -> Callable[[Any], tuple[Any, ...]]:
    """What takes these attributes of a record, as a tuple however many they are."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda one: tuple(getattr(one, name) for name in names)
