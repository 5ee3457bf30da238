"""Values as somebody would type them in a record, and values quoted in a message."""

from __future__ import annotations

import json
import re
from typing import Any

_LONGEST_QUOTED = 60
_PLAIN = re.compile(r"[A-Za-z_][A-Za-z0-9_ ./()-]*\Z")
_READ_AS_SOMETHING_ELSE = {"true", "false", "null"}


def typed(value: Any) -> str:
    """A value on one line of YAML."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {typed(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(typed(inner) for inner in value) + "]"
    if isinstance(value, str):
        return value if _safe_plain(value) else json.dumps(value, ensure_ascii=False)
    return json.dumps(value)


def quoted(value: Any) -> str:
    """A value as it stands in the file, in quotes and not longer than a line."""
    text = value if isinstance(value, str) else typed(value)
    text = text.replace("\n", "⏎").replace("\r", "⏎").replace("\t", "⇥")
    if len(text) > _LONGEST_QUOTED:
        text = text[: _LONGEST_QUOTED - 1] + "…"
    return f'"{text}"'


def listed(words: list[str], last: str = "or") -> str:
    """Words as a person lists them."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def _safe_plain(text: str) -> bool:
    plain = _PLAIN.match(text) or re.match(r"[0-9]{4}-[0-9]{2}(?:-[0-9]{2})?\Z", text)
    return bool(plain) and text.lower() not in _READ_AS_SOMETHING_ELSE and not text.endswith(" ")
