"""Small conversions that every kind of record needs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Data = dict[str, Any]


def number(data: Data, key: str) -> float | None:
    """The number at `key`; None when it is left out or the word "unknown" or "none"."""
    value = data.get(key)
    return None if value is None or isinstance(value, str) else value


def without(data: Mapping[str, Any], key: str) -> Data:
    """The data without one of its keys."""
    return {name: value for name, value in data.items() if name != key}


def texts(data: Data, key: str) -> tuple[str, ...]:
    """The list of texts at `key`, empty when left out."""
    return tuple(name(item) for item in data.get(key, ()))


def name(value: object) -> str:
    """A cavity or gauge as text: 4, 4.0 and "4" are one name."""
    return str(int(value) if isinstance(value, float) and value.is_integer() else value)


def section(data: Data, key: str) -> Data:
    """The mapping at `key`; empty when left out or a word such as "none" or "no"."""
    value = data.get(key)
    return value if isinstance(value, dict) else {}


def text_or_none(data: Data, key: str) -> str | None:
    """The value at `key` as text, None when left out."""
    value = data.get(key)
    return None if value is None else name(value)
