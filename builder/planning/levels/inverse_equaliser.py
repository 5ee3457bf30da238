"""An equaliser that takes back what the factory's did, within what is safe to give."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10, sqrt
from typing import Final

from builder.model.recorded_figures import CurvePoint
from builder.planning.tune_sheet import EqualiserPoint
from builder.units import Decibels, Hertz, require_positive

MOST_CUT_DB: Final = 9.0
MOST_BOOST_DB: Final = 3.0
"""A boost of 3 dB asks for twice the power and takes that much of the headroom."""
LEAST_DB: Final = 1.5
"""What is nearer to flat than that is left to the ear."""
LEAST_POINTS: Final = 6
QS: Final = (0.5, 0.7, 1.0, 1.4, 2.0, 2.8, 4.0)
"""A bell narrower than a third of an octave is no longer the radio's equaliser. All of these:
chosen by this project."""


@dataclass(frozen=True, slots=True)
class Inverse:
    """Bells to begin with, and how far from flat the pair is without and with them. [dB]"""

    points: tuple[EqualiserPoint, ...]
    before_db: Decibels
    after_db: Decibels


def bell_db(hz: Hertz, point: EqualiserPoint) -> Decibels:
    """Return what one bell does at a frequency. [dB]

    Source: the peaking filter (s² + s·A/Q + 1)/(s² + s/(A·Q) + 1) with A = 10^(dB/40), as in
    common practice; from memory.

    >>> round(bell_db(100.0, EqualiserPoint(100.0, -4.0, 1.0)), 2)
    -4.0
    """
    ratio = require_positive("hz", hz) / point.hz
    a = 10 ** (point.gain_db / 40)
    real = (1 - ratio**2) ** 2
    up, down = real + (ratio * a / point.q) ** 2, real + (ratio / (a * point.q)) ** 2
    return 10 * log10(up / down)


def inverse_of(
    shape: Sequence[CurvePoint], from_hz: Hertz, to_hz: Hertz, bands: int
) -> Inverse | None:
    """Return the bells that bring a pair nearer to flat between two frequencies.

    Args:
        shape: Its response by sixths of an octave, against its own level, which is flat.
        from_hz: Where the channel begins to play it.
        to_hz: Where it ends.
        bands: How many bells there are; 0 tells how far from flat it is and nothing else.

    None where too little of the shape lies between. Each bell is put where most is left, cut or
    boosted within `MOST_CUT_DB` and `MOST_BOOST_DB`, its Q the one that leaves least.
    """
    points = [each for each in shape if from_hz <= each.hz <= to_hz]
    if len(points) < LEAST_POINTS:
        return None
    rest = [(each.hz, each.db) for each in points]
    before = _away(rest)
    found: list[EqualiserPoint] = []
    while len(found) < bands and (best := _next(rest)) is not None:
        found.append(best)
        rest = [(hz, db + bell_db(hz, best)) for hz, db in rest]
    return Inverse(tuple(sorted(found, key=lambda each: each.hz)), before, _away(rest))


def _away(rest: Sequence[tuple[Hertz, Decibels]]) -> Decibels:
    return max(abs(db) for _, db in rest)


def _next(rest: Sequence[tuple[Hertz, Decibels]]) -> EqualiserPoint | None:
    """The bell that leaves least of all that is not yet flat; none where nothing is gained."""
    tried = [
        EqualiserPoint(_rounded(hz), max(-MOST_CUT_DB, min(MOST_BOOST_DB, round(-db, 1))), q)
        for hz, db in rest
        if abs(db) >= LEAST_DB
        for q in QS
    ]
    best = min(tried, key=lambda each: _left(rest, each), default=None)
    if best is None or _left(rest, best) >= 0.9 * _rms(rest):
        return None
    return best


def _left(rest: Sequence[tuple[Hertz, Decibels]], point: EqualiserPoint) -> float:
    return _rms([(hz, db + bell_db(hz, point)) for hz, db in rest])


def _rms(rest: Sequence[tuple[Hertz, Decibels]]) -> float:
    return sqrt(sum(db**2 for _, db in rest) / len(rest))


def _rounded(hz: Hertz) -> Hertz:
    """A frequency with two digits, as a control is set."""
    digits = 1 - int(log10(hz))
    return round(hz, digits)
