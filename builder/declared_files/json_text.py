"""JSON as people read it: on one line what fits, else a line for each entry; words fill lines."""

from __future__ import annotations

import json
import textwrap
from typing import Any

COLUMNS = 100
_STEP = "  "


def json_text(value: Any) -> str:
    """Return the text of a file, its last line end included."""
    return _shown(value, "", 0) + "\n"


def _shown(value: Any, margin: str, used: int) -> str:
    """A value that begins `used` columns behind the margin, with a comma to come."""
    short = json.dumps(value, ensure_ascii=False)
    if len(margin) + used + len(short) + 1 <= COLUMNS or not isinstance(value, dict | list):
        return short
    inner = margin + _STEP
    if isinstance(value, dict):
        heads = [json.dumps(key, ensure_ascii=False) + ": " for key in value]
        lines = [
            head + _shown(one, inner, len(head))
            for head, one in zip(heads, value.values(), strict=True)
        ]
    elif all(isinstance(one, str) for one in value):
        lines = [_filled(value, inner)]
    else:
        lines = [_shown(one, inner, 0) for one in value]
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    return f"{opening}\n{inner}" + f",\n{inner}".join(lines) + f"\n{margin}{closing}"


def _filled(words: list[str], margin: str) -> str:
    """Words side by side; a space inside a word is no place to break the line."""
    held = [json.dumps(word, ensure_ascii=False).replace(" ", "\0") for word in words]
    lines = textwrap.wrap(", ".join(held), COLUMNS - len(margin), break_on_hyphens=False)
    return f"\n{margin}".join(lines).replace("\0", " ")
