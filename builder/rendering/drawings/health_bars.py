"""Bars of the book's health, hatched so that a black-and-white print still tells them apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from markupsafe import Markup

from builder.model.words import GradeBand
from builder.rendering.drawings.canvas import Canvas, identifier
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.shapes import Hatch, hatch

BAND_HATCH: dict[GradeBand, Hatch | Literal[""]] = {
    "proven": "solid",
    "good": "crossed",
    "check first": "rising",
    "don't rely": "dots",
    "unproved": "",
    "disputed": "level",
}
"""Grade word to pattern, best first; unproved is an empty box."""

_WIDTH, _LABEL, _BAR, _ROW, _TALL = 340.0, 132.0, 168.0, 22.0, 14.0
_TITLE = 20.0


class Bar(NamedTuple):
    """One bar: its label, and the parts it is made of as (pattern, count)."""

    label: str
    parts: tuple[tuple[str, int], ...]

    @property
    def total(self) -> int:
        """All counts of the bar."""
        return sum(count for _, count in self.parts)


def bars(rows: Sequence[Bar], key: str, title: str, legend: Sequence[tuple[str, str]]) -> Markup:
    """Return the bars as one drawing, on a common scale, each with its total at the end.

    `title` says what is counted, and stands above them.
    `legend` is (pattern, words) for each pattern used; none for bars of a single pattern.
    """
    canvas = Canvas()
    words, size = fit(title, _WIDTH - 2, 13)
    canvas.text(0, 13, words, size, bold=True)
    top = _legend(canvas, legend)
    most = max((row.total for row in rows), default=0)
    for index, row in enumerate(rows):
        _bar(canvas, row, top + index * _ROW, most)
    said = "; ".join(f"{row.label} {row.total}" for row in rows)
    height = top + len(rows) * _ROW + 4
    return canvas.svg((_WIDTH, height), identifier(key), title, said or "nothing yet", "lb-bars")


def _legend(canvas: Canvas, legend: Sequence[tuple[str, str]]) -> float:
    """Draw the meaning of each pattern, three a line; return where the bars may begin."""
    for index, (pattern, words) in enumerate(legend):
        x, y = 1 + (index % 3) * 113.0, _TITLE + 2 + (index // 3) * 20.0
        _box(canvas, pattern, x, y, 18)
        canvas.text(x + 24, y + 11, words, 12)
    return _TITLE + 6 + ((len(legend) + 2) // 3) * 20.0


def _bar(canvas: Canvas, row: Bar, y: float, most: int) -> None:
    words, size = fit(row.label, _LABEL - 8, 12)
    canvas.text(0, y + 11, words, size)
    x = _LABEL
    for pattern, count in row.parts:
        width = _BAR * count / most if most else 0.0
        if count:
            _box(canvas, pattern, x, y, width)
        x += width
    canvas.text(x + 6, y + 11, str(row.total), 12)


def _box(canvas: Canvas, pattern: str, x: float, y: float, width: float) -> None:
    if pattern:
        canvas.add(hatch(pattern, round(x, 1), y, round(width, 1), _TALL))
    canvas.rect((x, y, width, _TALL), "lb-part")
