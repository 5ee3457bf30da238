"""What a recording says, drawn: responses, bass and distortion by step, what joining would cost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from markupsafe import Markup

from builder.figures import shown
from builder.rendering.drawings.line_plot import Axis, Curve, line_plot
from builder.sound.reading import SoundFacts
from builder.sound.results import Measured, Result

_FREQUENCIES: Final = Axis(
    "Hz", 20.0, 20_000.0,
    ((20, "20"), (50, "50"), (100, "100"), (200, "200"), (500, "500"), (1000, "1 k"),
     (2000, "2 k"), (5000, "5 k"), (10_000, "10 k"), (20_000, "20 k")),
    by_ratio=True,
)  # fmt: skip
_PLACES: Final = 1


class Plot(NamedTuple):
    """A drawing with the same as a table: its title, its heads and its rows."""

    title: str
    drawing: Markup
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def sound_plots(facts: SoundFacts) -> Iterator[Plot]:
    """Yield each drawing that the facts are enough for."""
    pairs = [(f"channel {pair.channel}", pair) for pair in facts.pairs]
    yield _plot(
        "Response of each pair",
        [_curve(name, pair.shape) for name, pair in pairs],
        _FREQUENCIES,
        _decibels("dB, against the pair's own level", -36, 12, 6),
    )
    yield _plot(
        "40 Hz against 1 kHz at each volume step",
        [_curve(name, pair.bass_db) for name, pair in pairs],
        _steps(facts),
        _decibels("dB", -18, 18, 6),
    )
    yield _plot(
        "Distortion of the loud bursts at each volume step",
        [
            _percent(
                f"{name}, {hz:.0f} Hz", ((s.step, s.distortion) for s in pair.steps if s.hz == hz)
            )
            for name, pair in pairs
            for hz in sorted({step.hz for step in pair.steps})
        ],
        _steps(facts),
        Axis("percent, at most 1 is clean", 0, 5, tuple((n, str(n)) for n in range(6))),
    )
    if facts.between:
        yield _plot(
            "What joining two pairs as they are would take away",
            [_curve(f"channels {two.first} and {two.second}", two.sum_db) for two in facts.between],
            _FREQUENCIES,
            _decibels("dB, against both in phase", -42, 0, 6),
        )


def _decibels(title: str, low: int, high: int, each: int) -> Axis:
    return Axis(
        title, low, high, tuple((n, f"{n:+d}" if n else "0") for n in range(low, high + 1, each))
    )


def _steps(facts: SoundFacts) -> Axis:
    numbers = sorted({step for pair in facts.pairs for step, _ in pair.bass_db})
    marks = tuple((number, str(number)) for number in numbers)
    return Axis("volume step", numbers[0] - 0.5, numbers[-1] + 0.5, marks)


def _curve(label: str, results: Iterable[tuple[float, Result]]) -> Curve:
    return Curve(
        label,
        tuple((x, each.value if isinstance(each, Measured) else None) for x, each in results),
    )


def _percent(label: str, results: Iterable[tuple[float, Result]]) -> Curve:
    curve = _curve(label, results)
    return Curve(label, tuple((x, None if y is None else 100 * y) for x, y in curve.points))


def _plot(title: str, curves: list[Curve], across: Axis, up: Axis) -> Plot:
    said = "; ".join(f"{curve.label}: {_told(curve)}" for curve in curves)
    drawing = line_plot(curves, across, up, title, title, f"{said}. The table below has all of it")
    heads = (across.title, *(curve.label for curve in curves))
    rows = tuple(
        (shown(x, 0), *("not said" if y is None else shown(y, _PLACES) for y in heights))
        for x, heights in _by_place(curves)
    )
    return Plot(f"{title} ({up.title})", drawing, heads, rows)


def _by_place(curves: list[Curve]) -> Iterator[tuple[float, list[float | None]]]:
    known = [dict(curve.points) for curve in curves]
    for x in sorted({x for points in known for x in points}):
        yield x, [points.get(x) for points in known]


def _told(curve: Curve) -> str:
    heights = [y for _, y in curve.points if y is not None]
    if not heights:
        return "not said"
    return f"from {shown(min(heights), _PLACES)} to {shown(max(heights), _PLACES)}"
