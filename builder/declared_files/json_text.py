"""JSON as people read it: on one line what fits, else lines that are filled with what is short.

A key of a record, a definition and a word with its meaning keep a line of their own, so that the
eye finds them at the margin.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Mapping
from typing import Any, Final

COLUMNS = 120
_STEP = "  "
_ONE_A_LINE: Final = frozenset({"properties", "$defs", "wordMeanings"})


def json_text(value: Any) -> str:
    """Return the text of a file, its last line end included."""
    return _shown(value, "", 0, "") + "\n"


def _shown(value: Any, margin: str, used: int, name: str) -> str:
    """The value of the key `name`, `used` columns behind the margin, with a comma to come."""
    short = json.dumps(value, ensure_ascii=False)
    if len(margin) + used + len(short) + 1 <= COLUMNS or not isinstance(value, dict | list):
        return short
    inner = margin + _STEP
    if isinstance(value, dict):
        entries = list(_entries(value, inner))
        lines = entries if name in _ONE_A_LINE else _filled(entries, COLUMNS - len(inner))
    elif all(isinstance(one, str) for one in value):
        lines = _words(value, COLUMNS - len(inner))
    else:
        lines = [_shown(one, inner, 0, "") for one in value]
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    return f"{opening}\n{inner}" + f",\n{inner}".join(lines) + f"\n{margin}{closing}"


def _entries(value: Mapping[str, Any], margin: str) -> Iterator[str]:
    for key, one in value.items():
        head = json.dumps(key, ensure_ascii=False) + ": "
        yield head + _shown(one, margin, len(head), key)


def _filled(entries: list[str], width: int) -> list[str]:
    """Short entries side by side; one that takes several lines stands alone."""
    lines = entries[:1]
    for entry in entries[1:]:
        longer = f"{lines[-1]}, {entry}"
        if "\n" not in longer and len(longer) < width:
            lines[-1] = longer
        else:
            lines.append(entry)
    return lines


def _words(words: list[str], width: int) -> list[str]:
    """Words side by side; a space inside a word is no place to break the line."""
    held = [json.dumps(word, ensure_ascii=False).replace(" ", "\0") for word in words]
    lines = textwrap.wrap(", ".join(held), width, break_on_hyphens=False)
    return [line.removesuffix(",").replace("\0", " ") for line in lines]
