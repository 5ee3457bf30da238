"""A question as tokens.

Mirrored line by line in the page's `finder-words.js`; no expression here means something else
there: white space is spelt out, and signs beyond the basic plane only part words.
"""

from __future__ import annotations

import re
from typing import NamedTuple

LONGEST_QUESTION = 160  # code points; the rest is not read, which is said
_SHOWN_OF_REST = 20

_DASH = re.compile(r"([0-9]) *[-–—] *(?=[0-9])")
_BREAK = re.compile(
    r"[\x00- \x7f-\xa0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff,;:?!()\[\]\"“”"
    r"\ud800-\udfff\U00010000-\U0010ffff]+"
)


class Tokens(NamedTuple):
    """The words of a question; `typing` while the last one may not be finished."""

    words: tuple[str, ...]
    typing: bool


def cut(text: str) -> tuple[str, str]:
    """Return the part of a question that is read, and with what word the rest begins, or ""."""
    rest = next((word for word in split(text[LONGEST_QUESTION:]) if word), "")
    more = "…" if len(rest) > _SHOWN_OF_REST else ""
    return text[:LONGEST_QUESTION], rest[:_SHOWN_OF_REST] + more


def tokens_of(text: str) -> Tokens:
    """Return the tokens of a question, in lower case; strokes stand alone, ids fall apart."""
    parts = split(_DASH.sub(r"\1-", text.lower().replace("/", " / ")))
    words = [word for part in parts for word in (part.split("-") if _is_id(part) else [part])]
    return Tokens(tuple(word for word in words if word), parts[-1] != "")


def split(text: str) -> list[str]:
    """Split a text at white space, brackets and signs that belong to no word."""
    return _BREAK.split(text)


def _is_id(part: str) -> bool:
    """Whether a token looks like the id of a record: "maker-model-2018-base"."""
    return part.count("-") > 1
