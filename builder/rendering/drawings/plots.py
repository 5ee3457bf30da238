"""A plot with the same as a table, and the axes that plots of sound have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from markupsafe import Markup

from builder.figures import shown
from builder.rendering.drawings.line_plot import Axis, Curve, line_plot

FREQUENCIES: Final = Axis(
    "Hz", 20.0, 20_000.0,
    ((20, "20"), (50, "50"), (100, "100"), (200, "200"), (500, "500"), (1000, "1 k"),
     (2000, "2 k"), (5000, "5 k"), (10_000, "10 k"), (20_000, "20 k")),
    by_ratio=True,
)  # fmt: skip
PERCENT: Final = Axis("percent, at most 1 is clean", 0, 5, tuple((n, str(n)) for n in range(6)))
RESPONSE: Final = "dB, against the pair's own level"
SUM: Final = "dB, against both in phase"


class Plot(NamedTuple):
    """A drawing with the same as a table: its title, its heads and its rows."""

    title: str
    drawing: Markup
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def decibels(title: str, low: int, high: int, each: int) -> Axis:
    """Return an axis of decibels with a mark at every so many."""
    return Axis(
        title, low, high, tuple((n, f"{n:+d}" if n else "0") for n in range(low, high + 1, each))
    )


def steps(numbers: Sequence[int]) -> Axis:
    """Return the axis of volume steps; `numbers` grow.

    Raises:
        IndexError: there is none.
    """
    marks = tuple((number, str(number)) for number in numbers)
    return Axis("volume step", numbers[0] - 0.5, numbers[-1] + 0.5, marks)


def milliseconds(curves: Sequence[Curve]) -> Axis:
    """Return an axis of delays that holds all curves, marked at round places."""
    heights = [y for curve in curves for _, y in curve.points if y is not None]
    low, high = min(0.0, *heights), max(0.0, *heights)
    each = next(
        (s for s in (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0) if (high - low) / s <= 8), 50.0
    )
    first, last = int(low / each) - (low < 0), int(high / each) + 1
    marks = tuple((n * each, f"{n * each:g}") for n in range(first, last + 1))
    return Axis("ms later", marks[0][0], marks[-1][0], marks)


def plot(
    key: str, title: str, curves: Sequence[Curve], across: Axis, up: Axis, places: int = 1
) -> Plot:
    """Return curves as a drawing and a table; `key` tells it from others of one page.

    `places` are the digits of the table behind the point.
    """
    said = "; ".join(f"{curve.label}: {_told(curve, places)}" for curve in curves)
    drawing = line_plot(curves, across, up, key, title, f"{said}. The table below has all of it")
    heads = (across.title, *(curve.label for curve in curves))
    rows = tuple(
        (shown(x, 0), *("not said" if y is None else shown(y, places) for y in heights))
        for x, heights in _by_place(curves)
    )
    return Plot(f"{title} ({up.title})", drawing, heads, rows)


def _by_place(curves: Sequence[Curve]) -> Iterator[tuple[float, list[float | None]]]:
    known = [dict(curve.points) for curve in curves]
    for x in sorted({x for points in known for x in points}):
        yield x, [points.get(x) for points in known]


def _told(curve: Curve, places: int) -> str:
    heights = [y for _, y in curve.points if y is not None]
    if not heights:
        return "not said"
    return f"from {shown(min(heights), places)} to {shown(max(heights), places)}"
