"""Small conversions of data that no declaration says."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from builder.figures import plain_name

Data = dict[str, Any]


def without(data: Mapping[str, Any], key: str) -> Data:
    """The data without one of its keys."""
    return {name: value for name, value in data.items() if name != key}


def text_or_none(data: Mapping[str, Any], key: str) -> str | None:
    """The value at `key` as text, None when left out."""
    value = data.get(key)
    return None if value is None else plain_name(value)
