"""Curves over an axis, told apart by their dashes: a grey print still shows which is which."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import log
from typing import NamedTuple

from markupsafe import Markup

from builder.rendering.drawings.canvas import Canvas, identifier, number

_WIDTH, _HEIGHT = 300.0, 120.0
"""Three of them stand beside each other on A4, and all of a recording on one sheet."""
_LEFT, _RIGHT, _LEGEND_ROW = 34.0, 16.0, 18.0
_DASHES = ("", "7 3", "2 3", "9 3 2 3", "4 2", "12 4")
"""One for each curve, in turn."""


class Curve(NamedTuple):
    """A named curve; a point without a height leaves a gap."""

    label: str
    points: tuple[tuple[float, float | None], ...]


class Axis(NamedTuple):
    """One direction of a plot: its words, its ends, and the places that are marked with a word."""

    title: str
    low: float
    high: float
    marks: tuple[tuple[float, str], ...]
    by_ratio: bool = False

    def share(self, value: float) -> float:
        """Where a value lies, 0 at the low end and 1 at the high one, never beyond."""
        if self.by_ratio:
            along = log(value / self.low) / log(self.high / self.low)
        else:
            along = (value - self.low) / (self.high - self.low)
        return min(1.0, max(0.0, along))


def line_plot(
    curves: Sequence[Curve], across: Axis, up: Axis, key: str, title: str, said: str
) -> Markup:
    """Return curves as one drawing; `said` is what it shows, for those who cannot see it.

    What is too high for it stays at its upper edge, where it is seen; what is too low is left out.
    """
    canvas = Canvas()
    top = 14 + _LEGEND_ROW * len(curves)
    for index, curve in enumerate(curves):
        at = 10 + _LEGEND_ROW * index
        _stroke(canvas, [(_LEFT, at), (_LEFT + 46, at)], index)
        drawn = any(y is not None for _, y in curve.points)
        canvas.text(_LEFT + 54, at + 4, curve.label if drawn else f"{curve.label}: not said", 12)
    _grid(canvas, across, up, top)
    for index, curve in enumerate(curves):
        for run in _runs(curve, up.low):
            _stroke(canvas, [_place(across, up, top, point) for point in run], index)
    height = top + _HEIGHT + 38
    return canvas.svg((_WIDTH, height), identifier(key), title, said, "lb-block")


def _place(across: Axis, up: Axis, top: float, point: tuple[float, float]) -> tuple[float, float]:
    x = _LEFT + (_WIDTH - _LEFT - _RIGHT) * across.share(point[0])
    return x, top + _HEIGHT * (1 - up.share(point[1]))


def _grid(canvas: Canvas, across: Axis, up: Axis, top: float) -> None:
    bottom = top + _HEIGHT
    for value, words in across.marks:
        x, _ = _place(across, up, top, (value, up.low))
        canvas.line((x, top), (x, bottom), "lb-grid", 0.3)
        canvas.text(x, bottom + 14, words, 11, anchor="middle")
    for value, words in up.marks:
        _, y = _place(across, up, top, (across.low, value))
        canvas.line((_LEFT, y), (_WIDTH - _RIGHT, y), "lb-grid", 0.3)
        canvas.text(_LEFT - 5, y + 4, words, 11, anchor="end")
    canvas.text((_LEFT + _WIDTH) / 2, bottom + 31, f"across: {across.title}; up: {up.title}", 11,
                anchor="middle")  # fmt: skip


def _runs(curve: Curve, lowest: float) -> Iterator[list[tuple[float, float]]]:
    """The stretches of a curve that have no gap; what is below the plot is one, above it is not."""
    run: list[tuple[float, float]] = []
    for x, y in (*curve.points, (0.0, None)):
        if y is not None and y >= lowest:
            run.append((x, y))
        elif run:
            yield run
            run = []


def _stroke(canvas: Canvas, places: Sequence[tuple[float, float]], index: int) -> None:
    """A line through places; a place alone is a short stroke, so that it is seen."""
    if len(places) == 1:
        places = [(places[0][0] - 3, places[0][1]), (places[0][0] + 3, places[0][1])]
    dash = _DASHES[index % len(_DASHES)]
    extra = f' stroke-dasharray="{dash}"' if dash else ""
    path = "L".join(f"{number(x)} {number(y)}" for x, y in places)
    canvas.path(f"M{path}", "lb-curve", 1.8, extra)
