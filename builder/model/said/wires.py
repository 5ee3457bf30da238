"""Base and stripe of a wire as people write them together: `wht/blk`, `yellow with red stripe`."""

from __future__ import annotations

import re
from typing import NamedTuple

from builder.model.said import Said, plain_said, said

_BETWEEN = re.compile(
    r"\s*[/\\+,&|]\s*|\s+(?:with|w/?|and|on|stripe|tracer)\s+(?:an?\s+)?|\s*[-–]\s*"
)
_BEHIND = re.compile(r"[\s\-_]+(?:stripe[ds]?|tracer|trace|wire|cable)\Z")


class ColourSaid(NamedTuple):
    """One colour as it was written, and what it stands for."""

    written: str
    meant: Said


def colours_said(text: str) -> list[ColourSaid]:
    """Return the colours of a wire in their order; those that are none with nothing meant."""
    whole = _BEHIND.sub("", text.strip().lower().replace("_", " "))
    meant = said("colour", whole)
    if meant.means:
        return [ColourSaid(whole, meant)]
    parts = [_BEHIND.sub("", part) for part in _BETWEEN.split(whole) if part.strip()]
    if len(parts) == 1:
        parts = _halves(parts[0])
    return [ColourSaid(part, said("colour", part)) for part in parts]


def _halves(text: str) -> list[str]:
    """Two colours with only a blank between them, of which each may have two words."""
    words = plain_said(text).split()
    for cut in range(1, len(words)):
        first, second = " ".join(words[:cut]), " ".join(words[cut:])
        if said("colour", first).means and said("colour", second).means:
            return [first, second]
    return words if len(words) > 1 else [text]
