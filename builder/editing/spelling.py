"""A value as YAML that reads back as the same value, and that no reader of YAML mistakes."""

from __future__ import annotations

import json
import math
import re
from decimal import Decimal
from typing import Any

from builder.editing.edits import UneditableError
from builder.loading.characters import hidden_characters
from builder.loading.scalars import (
    LARGEST_INTEGER,
    SMALLEST_FRACTION,
    UnusableNumberError,
    resolve_plain,
)

# Letters and digits of any script, and signs that mean nothing to YAML inside a word.
_PLAIN = re.compile(r"[^\W_][\w ./()+%;=°²'\"<>^$,-]*\Z")
# A number with underscores, or of sixty: text to us, but not to every reader.
_ODD_NUMBER = re.compile(r"[-+.]?[0-9][-+0-9._eExXoa-fA-F]*\Z")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}(?:-[0-9]{2})?\Z")
_ENDS_LINES = re.compile("[\n\r\x85\u2028\u2029]")


def scalar_text(value: Any, *, flow: bool) -> str:
    """One scalar; `flow` inside brackets, where commas and brackets need quotes.

    Raises:
        UneditableError: no record can hold the value.
    """
    if isinstance(value, str):
        return _text(value, flow=flow)
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) > LARGEST_INTEGER:
        raise UneditableError(f"{value} has too many digits for a record")
    if isinstance(value, float) and not math.isfinite(value):
        raise UneditableError(f"{value} is no number that a record can hold")
    if isinstance(value, float) and SMALLEST_FRACTION <= abs(value) < 1:
        return f"{Decimal(repr(value)):f}"  # nobody types 8.7e-05
    if value is None or isinstance(value, bool | int | float):
        return json.dumps(value)
    raise UneditableError(f"a record cannot hold a {type(value).__name__}")


def flow_text(value: Any) -> str:
    """Any value on one line, lists in brackets and mappings in braces."""
    if isinstance(value, dict):
        pairs = (f"{key_text(key)}: {flow_text(inner)}" for key, inner in value.items())
        return "{" + ", ".join(pairs) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(flow_text(inner) for inner in value) + "]"
    return scalar_text(value, flow=True)


def key_text(key: str) -> str:
    """A key; quoted when it could be read as anything but itself.

    Raises:
        UneditableError: it is blank, which no record allows.
    """
    if not isinstance(key, str) or not key.strip():
        raise UneditableError("a key must be a word")
    return _text(key, flow=True)


def _text(text: str, *, flow: bool) -> str:
    if any(hidden_characters(text)) or "\r" in text:
        raise UneditableError(f"{text!r} holds a character that nobody can see")
    if _is_plain(text) and not (flow and "," in text):
        return text
    return json.dumps(text, ensure_ascii=False)


def _is_plain(text: str) -> bool:
    if not _PLAIN.match(text) or text.endswith(" ") or _ENDS_LINES.search(text):
        return False
    if _ODD_NUMBER.match(text) and not _DATE.match(text):
        return False
    try:
        return resolve_plain(text) == text
    except UnusableNumberError:
        return False
