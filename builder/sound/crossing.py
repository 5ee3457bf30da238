"""The crossover between a low and a high pair, by the place where the two cross.

What both have in common, an equaliser before the crossover, drops out of their ratio: of two halves
of one order that ratio is a power of the frequency, its phase a multiple of 90°. So slope, polarity
and delay are sure. Corner and type are where the common rest is smoothest, if it is so there only.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.between import Between
from builder.sound.crossovers import Crossover
from builder.sound.delay import NARROW, Relation, plain_relation, refused_relation
from builder.sound.filters import FILTER_TYPES, FilterType, crossover, rates_near
from builder.sound.response import Response
from builder.sound.results import Measured, Refused, Result
from builder.units import Decibels, Hertz

SLACK_DB: Final = 0.06
HIDES: Final = 5.0
"""How much of the rest an equaliser may hide: what is worse by no more than this, or by no more
times, is as good. In simulated cars the wrong filter was smoother than the right one by up to
0.4 dB, 4.5 times."""
ROUGHEST_DB: Final = 0.35
"""How rough, RMS, the common rest may be. All of these chosen by this project."""
OFF_WHOLE: Final = 0.2
"""How far from a whole number the order of the ratio may be."""
MOST_SPREAD: Final = 0.05
SMOOTH_DEGREE: Final = 3
AROUND: Final = 3.0
"""The rest is looked at from a third of the crossing to three times it."""
_ON_EACH_SIDE: Final = 60
_CORNERS: Final = np.geomspace(0.6, 1 / 0.6, 241)


@dataclass(frozen=True, slots=True)
class Crossing:
    """What two halves tell: the crossover, and how the high pair stands to the low one.

    `equal_hz` is where both are equally loud: the corner too, if both are set to one level, which
    the recording alone does not say.
    """

    equal_hz: Result
    crossover: Crossover
    relation: Relation


@dataclass(frozen=True, slots=True)
class _Tried:
    """One type with what it leaves at each corner that is tried."""

    kind: FilterType
    corners_hz: Samples
    left_db: Samples

    @property
    def best_db(self) -> Decibels:
        return float(np.min(self.left_db))


def crossing_of(low: Response, high: Response, pairs: Between) -> Crossing:
    """Return the crossover between a low and a high pair.

    Args:
        low: The pair that plays what is below.
        high: The other, of the same recording.
        pairs: The high pair against the low one.
    """
    at = np.flatnonzero(np.diff(np.sign(pairs.db)))
    if not len(at):
        return _refused("the two pairs do not cross where both are heard")
    here = at[len(at) // 2] + np.array([0, 1])
    crossing_hz = float(np.exp(np.interp(0.0, pairs.db[here], np.log(pairs.hz[here]))))
    slope = np.polyfit(np.log2(pairs.hz), pairs.db, 1)[0] / (20 * np.log10(2))
    order = round(float(slope))
    if order < 1 or abs(slope - order) > OFF_WHOLE:
        return _refused(
            f"the ratio of the two pairs grows by {6 * slope:.1f} dB an octave: the two halves "
            "have corners or slopes of their own; record each beside a pair that plays all"
        )
    straight = pairs.phase - order * np.pi / 2
    relation = plain_relation(pairs.hz, straight, NARROW)
    equal = Measured(crossing_hz, 0.005 * crossing_hz)
    return Crossing(equal, _crossover(low, high, crossing_hz, order), relation)


def _refused(reason: str) -> Crossing:
    why = Refused(reason)
    return Crossing(why, Crossover("high-pass", why, why, why, None), refused_relation(reason))


def _crossover(low: Response, high: Response, crossing_hz: Hertz, order: int) -> Crossover:
    tried = sorted(_tried(low, high, crossing_hz, order), key=lambda each: each.best_db)
    slope: Result = Measured(6.0 * order, 0.0)
    best = tried[0]
    if best.best_db > ROUGHEST_DB:
        why = Refused(
            "the equaliser is not smooth around the crossing, so its corner is not separable: "
            "record each half beside a pair that plays all"
        )
        return Crossover("high-pass", why, slope, why, None)
    good = [each for each in tried if each.best_db <= _limit_db(best)]
    names = sorted({each.kind.name for each in good})
    kind: str | Refused = names[0]
    if len(names) > 1:
        kind = Refused(f"{' and '.join(names)} fit equally well")
    corner = _corner(good, best)
    if isinstance(corner, Refused):  # what an equaliser may hide of the one, it hides of the other
        kind = corner
    return Crossover("high-pass", corner, slope, kind, None)


def _limit_db(best: _Tried) -> Decibels:
    return max(best.best_db + SLACK_DB, HIDES * best.best_db)


def _corner(good: list[_Tried], best: _Tried) -> Result:
    """The corner, with all those that leave no more than an equaliser may hide."""
    limit_db = _limit_db(best)
    possible = np.concatenate([each.corners_hz[each.left_db <= limit_db] for each in good])
    here_hz = float(best.corners_hz[int(np.argmin(best.left_db))])
    spread = float(max(np.max(possible) - here_hz, here_hz - np.min(possible)))
    if spread > MOST_SPREAD * here_hz:
        return Refused(
            f"anything between {np.min(possible):.0f} and {np.max(possible):.0f} Hz is possible: "
            "level and equaliser are not separable from the corner"
        )
    return Measured(here_hz, spread + 0.005 * here_hz)


def _tried(low: Response, high: Response, crossing_hz: Hertz, order: int) -> Iterator[_Tried]:
    """Each type of an order, at corners around the crossing: how rough the common rest is."""
    hz = np.geomspace(crossing_hz / AROUND, crossing_hz * AROUND, 2 * _ON_EACH_SIDE)
    halves = [np.interp(hz, each.hz, each.db) for each in (low, high)]
    kinds = [kind for kind in FILTER_TYPES if kind.order == order]
    for kind in kinds:
        for processor_hz in rates_near(crossing_hz):
            corners_hz = crossing_hz * _CORNERS
            left = [_roughness(hz, halves, kind, corner, processor_hz) for corner in corners_hz]
            yield _Tried(kind, corners_hz, np.array(left))


def _roughness(
    hz: Samples, halves: list[Samples], kind: FilterType, corner_hz: Hertz, rate: Hertz | None
) -> Decibels:
    """How far the two halves, freed of their filters, are from one smooth line. [dB RMS]

    The high half may be louder or softer as a whole.
    """
    octaves = np.log2(hz / corner_hz)
    smooth = np.vander(octaves, SMOOTH_DEGREE + 1)
    rows, values = [], []
    for is_high, half_db in enumerate(halves):
        through = crossover(kind, "high-pass" if is_high else "low-pass", hz, corner_hz, rate)
        through_db = 20 * np.log10(np.abs(through) + 1e-9)
        inside = through_db > -15.0
        louder = np.full((np.count_nonzero(inside), 1), float(is_high))
        rows.append(np.hstack([smooth[inside], louder]))
        values.append((half_db - through_db)[inside])
    matrix, wanted = np.vstack(rows), np.concatenate(values)
    weights, *_ = np.linalg.lstsq(matrix, wanted, rcond=None)
    return float(np.sqrt(np.mean((wanted - matrix @ weights) ** 2)))
