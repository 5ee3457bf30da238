"""What a recording says, drawn: responses, bass, distortion, what joining costs, group delay."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.rendering.drawings.line_plot import Curve
from builder.rendering.drawings.plots import (
    FREQUENCIES,
    PERCENT,
    RESPONSE,
    SUM,
    Plot,
    decibels,
    milliseconds,
    plot,
    steps,
)
from builder.sound.pairs import PairsFacts
from builder.sound.reading import SoundFacts
from builder.sound.results import Measured, Result


def sound_plots(facts: SoundFacts) -> Iterator[Plot]:
    """Yield each drawing that the facts are enough for."""
    pairs = [(f"channel {pair.channel}", pair) for pair in facts.pairs]
    numbers = sorted({step for pair in facts.pairs for step, _ in pair.bass_db})
    title = "Response of each pair"
    curves = [_curve(name, pair.shape) for name, pair in pairs]
    yield plot(title, title, curves, FREQUENCIES, decibels(RESPONSE, -36, 12, 6))
    title = "40 Hz against 1 kHz at each volume step"
    curves = [_curve(name, pair.bass_db) for name, pair in pairs]
    yield plot(title, title, curves, steps(numbers), decibels("dB", -18, 18, 6))
    title = "Distortion of the loud bursts at each volume step"
    curves = [
        _percent(f"{name}, {hz:.0f} Hz", ((s.step, s.distortion) for s in pair.steps if s.hz == hz))
        for name, pair in pairs
        for hz in sorted({step.hz for step in pair.steps})
    ]
    yield plot(title, title, curves, steps(numbers), PERCENT)
    if facts.between:
        title = "What joining two pairs as they are would take away"
        curves = [
            _curve(f"channels {two.first} and {two.second}", two.sum_db) for two in facts.between
        ]
        yield plot(title, title, curves, FREQUENCIES, decibels(SUM, -42, 0, 6))
        yield from _delays(facts.between)


def _delays(between: Iterable[PairsFacts]) -> Iterator[Plot]:
    """How much later each second pair comes, where that is known of any."""
    curves = [
        _curve(f"channel {two.second} against {two.first}", two.group_delay_ms) for two in between
    ]
    known = [each for each in curves if any(y is not None for _, y in each.points)]
    if known:
        title = "Group delay of each two pairs"
        yield plot(title, title, known, FREQUENCIES, milliseconds(known), 2)


def _curve(label: str, results: Iterable[tuple[float, Result]]) -> Curve:
    return Curve(
        label,
        tuple((x, each.value if isinstance(each, Measured) else None) for x, each in results),
    )


def _percent(label: str, results: Iterable[tuple[float, Result]]) -> Curve:
    curve = _curve(label, results)
    return Curve(label, tuple((x, None if y is None else 100 * y) for x, y in curve.points))
