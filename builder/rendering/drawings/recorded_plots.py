"""What a recording in the book told, drawn of the numbers in its visit and of nothing else."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from builder.model.names import channel_name
from builder.model.recorded_figures import CurvePoint
from builder.model.recorded_sound import RecordedBetween, RecordedPair, RecordedSound
from builder.model.words import Channel
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


def recorded_plots(
    recording: RecordedSound, channels: Collection[Channel], key: str
) -> Iterator[Plot]:
    """Yield the drawings of these pairs that a recording is enough for; `key` tells it apart."""
    pairs = [pair for pair in recording.pairs if pair.channel in channels]
    both = [two for two in recording.between if {two.first, two.second} <= {*channels}]
    yield from _responses(pairs, key)
    yield from _by_step(pairs, key)
    for number, two in enumerate(both):
        yield from _of_two(two, f"{key}-{number}")


def _responses(pairs: Sequence[RecordedPair], key: str) -> Iterator[Plot]:
    curves = [Curve(channel_name(pair.channel), _points(pair.shape)) for pair in pairs]
    if any(curve.points for curve in curves):
        up = decibels(RESPONSE, -36, 12, 6)
        yield plot(f"{key}-response", "Response of each pair", curves, FREQUENCIES, up)


def _by_step(pairs: Sequence[RecordedPair], key: str) -> Iterator[Plot]:
    bass = [
        Curve(channel_name(pair.channel), tuple((p.volume_step, p.db) for p in pair.bass_by_step))
        for pair in pairs
    ]
    numbers = sorted({int(x) for curve in bass for x, _ in curve.points})
    if numbers:
        title = "40 Hz against 1 kHz at each volume step"
        yield plot(f"{key}-bass", title, bass, steps(numbers), decibels("dB", -18, 18, 6))
    bent = [each for pair in pairs for each in _distortion(pair)]
    numbers = sorted({int(x) for curve in bent for x, _ in curve.points})
    if numbers:
        title = "Distortion at full scale at each volume step"
        yield plot(f"{key}-distortion", title, bent, steps(numbers), PERCENT, 2)


def _distortion(pair: RecordedPair) -> Iterator[Curve]:
    for hz in sorted({each.hz for each in pair.volume_steps}):
        points = tuple(
            (each.volume_step, each.distortion_percent)
            for each in pair.volume_steps
            if each.hz == hz
        )
        yield Curve(f"{channel_name(pair.channel)}, {hz:.0f} Hz", points)


def _of_two(two: RecordedBetween, key: str) -> Iterator[Plot]:
    names = f"{channel_name(two.first)} and {channel_name(two.second)}"
    turned = ", one turned over" if two.in_step_turned == "yes" else ""
    sums = [
        Curve("as they are", _points(two.sum)),
        Curve(f"the delay made good{turned}", _points(two.in_step)),
    ]
    if any(curve.points for curve in sums):
        title = f"What joining {names} takes away"
        yield plot(f"{key}-sum", title, sums, FREQUENCIES, decibels(SUM, -42, 0, 6))
    late = Curve(channel_name(two.second), tuple((each.hz, each.ms) for each in two.group_delay))
    if late.points:
        title = f"Group delay against {channel_name(two.first)}"
        yield plot(f"{key}-delay", title, [late], FREQUENCIES, milliseconds([late]), 2)


def _points(curve: Sequence[CurvePoint]) -> tuple[tuple[float, float | None], ...]:
    return tuple((each.hz, each.db) for each in curve)
