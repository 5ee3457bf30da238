"""How wide words will be, and how to fit them into a given width.

The reader's font is not known, so widths follow a wide sans face: real text is narrower.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate

_NARROW = frozenset("ijlI.,:;'|!()[] f/rt-")
_WIDE = frozenset("mwMWQ@%—…+−=<>≥≤")
_MIN_SIZE = 9.0


def _em(char: str) -> float:
    if char in _NARROW:
        return 0.4
    if char in _WIDE:
        return 0.99
    if ord(char) >= 0x1100:  # ideographs and their kin fill the em square
        return 1.05
    return 0.72 if char.isupper() else 0.64


@lru_cache(maxsize=4096)
def text_width(words: str, size: float = 11) -> float:
    """Return the width of `words` at font `size`, never less than in common fonts."""
    return sum(map(_em, words)) * size


def clip(words: str, width: float, size: float = 11) -> str:
    """Return `words`, cut with an ellipsis when wider than `width`."""
    if text_width(words, size) <= width:
        return words
    room = width / size - _em("…")
    kept = sum(1 for reached in accumulate(map(_em, words)) if reached <= room)
    return words[:kept].rstrip() + "…"


def fit(words: str, width: float, size: float = 11) -> tuple[str, float]:
    """Return `words` and the font size that fits `width`: smaller first, then cut short."""
    wanted = text_width(words, size)
    if wanted <= width:
        return words, size
    smaller = max(_MIN_SIZE, int(10 * size * width / wanted) / 10)
    return clip(words, width, smaller), smaller


_LINES_MAX = 12


def wrap(words: str, width: float, size: float = 11) -> list[str]:
    """Return `words` as lines no wider than `width`; a longer text ends in an ellipsis."""
    lines: list[str] = []
    rest = words.split()
    while rest and len(lines) < _LINES_MAX:
        take = 1
        while take < len(rest) and text_width(" ".join(rest[: take + 1]), size) <= width:
            take += 1
        line, rest = " ".join(rest[:take]), rest[take:]
        last = len(lines) == _LINES_MAX - 1 and rest
        lines.append(clip(line + " …" if last else line, width, size))
    return lines
