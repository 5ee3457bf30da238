"""What a recording says, as lines for people and as data for programs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, is_dataclass
from typing import Any, Final

from builder.figures import share_percent, shown
from builder.sound.levels import MOST_DISTORTION, StepLevels
from builder.sound.pairs import PairsFacts, Standing
from builder.sound.reading import PairFacts, SoundFacts
from builder.sound.results import Measured, Refused, Result

_NAMES: Final[dict[Standing, str]] = {
    "alike": "plays the same band as",
    "part of the first": "plays a part of what is on",
    "above the first": "plays above",
    "apart": "plays nothing that is also on",
}
_WORTH_SAYING_DB: Final = 1.0
_LEAST_TOLD: Final = MOST_DISTORTION / 2
"""A share that is worth naming an order for."""
_NOT_TOLD: Final = ("model",)


def as_data(facts: SoundFacts) -> dict[str, Any]:
    """Return the facts as plain data: a result is a value with plus_minus, or refused with why."""
    return dict(_plain(facts))


def _plain(value: Any) -> Any:
    if isinstance(value, Measured):
        return {"value": value.value, "plus_minus": value.plus_minus}
    if isinstance(value, Refused):
        return {"refused": value.reason}
    if is_dataclass(value) and not isinstance(value, type):
        names = asdict(value).keys()
        return {name: _plain(getattr(value, name)) for name in names if name not in _NOT_TOLD}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return value


def lines_of(facts: SoundFacts) -> Iterator[str]:
    """Yield what the recording says, pair by pair."""
    yield f"the recorder's clock: {_told(facts.clock_ppm, 'ppm', 2)} against the player's"
    for pair in facts.pairs:
        yield from _pair_lines(pair)
    for two in facts.between:
        yield from _two_lines(two)
    yield from facts.notes


def _told(result: Result, unit: str, places: int) -> str:
    if isinstance(result, Refused):
        return f"not said: {result.reason}"
    value = shown(result.value, places)
    more = shown(result.plus_minus, places, beside=0.0) if result.plus_minus else ""
    return f"{value} {unit}{f' ± {more}' if more else ''}".rstrip()


def _pair_lines(pair: PairFacts) -> Iterator[str]:
    yield ""
    side = f"not said: {pair.side.reason}" if isinstance(pair.side, Refused) else pair.side
    yield f"channel {pair.channel}; side: {side}"
    if pair.gain_moved:
        yield f"  no level of it can be trusted: {pair.gain_moved}"
    yield f"  tone for the meter, peak: {_told(pair.meter_dbfs, 'dBFS', 1)}"
    yield f"  level at the tone for the meter: {_told(pair.level_v_rms, 'V', 2)}"
    yield f"  noise: {_told(pair.noise_v_rms, 'V', 5)}"
    yield f"  3 dB down at the low end: {_told(pair.lower_edge_hz, 'Hz', 0)}"
    yield f"  3 dB down at the high end: {_told(pair.upper_edge_hz, 'Hz', 0)}"
    yield f"  the other side softer by: {_told(pair.apart_db, 'dB', 1)}"
    for step, bass in pair.bass_db:
        yield f"  step {step}, 40 Hz against 1 kHz: {_told(bass, 'dB', 1)}"
    yield from (line for step in pair.steps for line in _step_lines(step))
    yield f"  loudest clean step: {_told(pair.clean_step, '', 0)}"
    yield from (f"  muted: {name}" for name in pair.muted)
    yield from _shape_lines(pair)


def _step_lines(step: StepLevels) -> Iterator[str]:
    at = f"  step {step.step}, {step.hz:.0f} Hz"
    yield f"{at}, loud: {_told(step.loud_v_rms, 'V', 2)}"
    yield f"{at}, missing of 20 dB: {_told(step.compressed_db, 'dB', 2)}"
    bent = step.distortion
    told = (
        f"not said: {bent.reason}"
        if isinstance(bent, Refused)
        else share_percent(bent.value, MOST_DISTORTION)
    )
    yield f"{at}, distortion: {told}{_most_of_it(step)}"


def _most_of_it(step: StepLevels) -> str:
    """The strongest single order, where it stands out of noise."""
    clear = [
        (told.value, order)
        for order, told in step.harmonics
        if isinstance(told, Measured) and told.value > max(told.plus_minus, _LEAST_TOLD)
    ]
    if not clear:
        return ""
    share, order = max(clear)
    return f", most of it order {order}: {share_percent(share, MOST_DISTORTION)}"


def _shape_lines(pair: PairFacts) -> Iterator[str]:
    """Sixths of an octave that could be told, six a line."""
    told = [
        f"{hz:.0f} Hz {round(at.value, 1) + 0.0:+.1f}"
        for hz, at in pair.shape
        if isinstance(at, Measured)
    ]
    yield "  against its own level, in dB:" if told else "  its shape is not said"
    for begin in range(0, len(told), 6):
        yield f"    {', '.join(told[begin : begin + 6])}"


def _two_lines(two: PairsFacts) -> Iterator[str]:
    yield ""
    yield f"channel {two.second} {_NAMES[two.standing]} channel {two.first}"
    late = two.relation.late_ms
    yield f"  it comes later by: {_told(late, 'ms', 3)}"
    turned = two.relation.inverted
    if isinstance(turned, bool):
        yield f"  polarity: {'turned over' if turned else 'the same'}"
    yield f"  all-pass: {_all_pass(two)}"
    yield f"  joined as they are: {_sum(two)}"
    for half in two.crossovers:
        kind = f"not said: {half.kind.reason}" if isinstance(half.kind, Refused) else half.kind
        yield f"  {half.way}, type: {kind}"
        yield f"  {half.way}, corner: {_told(half.corner_hz, 'Hz', 0)}"
        yield f"  {half.way}, slope: {_told(half.slope_db, 'dB an octave', 0)}"
    if isinstance(two.equal_hz, Measured):
        yield f"  equally loud at: {_told(two.equal_hz, 'Hz', 0)}; the corner, if set to one level"


def _all_pass(two: PairsFacts) -> str:
    order = two.relation.all_pass_order
    if isinstance(order, Refused):
        return f"not said: {order.reason}"
    if not order:
        return "none"
    where = two.second if two.relation.turns_second else two.first
    corner = _told(two.relation.all_pass_hz, "Hz", 0)
    q = two.relation.all_pass_q
    more = f", Q {shown(q.value, 2)}" if isinstance(q, Measured) else ""
    return f"order {order} in channel {where}, corner {corner}{more}"


def _sum(two: PairsFacts) -> str:
    """Where joining two pairs would cost more than a decibel."""
    told = [(hz, lost.value) for hz, lost in two.sum_db if isinstance(lost, Measured)]
    bad = [f"{hz:.0f} Hz {lost:.0f} dB" for hz, lost in told if lost < -_WORTH_SAYING_DB]
    return ", ".join(bad) or "nothing is lost where both are heard"
