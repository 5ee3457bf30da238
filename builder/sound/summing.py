"""What joining two pairs would give, worked out before anybody cuts a wire."""

from __future__ import annotations

from typing import Final

import numpy as np

from builder.sound.bands import PER_OCTAVE, centres_hz
from builder.sound.response import Response
from builder.sound.results import Measured, Refused, Result
from builder.units import Hertz, gain_factor_db

DEEPEST_DB: Final = -40.0
"""What is written for a null: how deep one is below that, noise decides."""
MOST_NOISE: Final = 0.1


def lost_in_sum(one: Response, other: Response) -> tuple[tuple[Hertz, Result], ...]:
    """Return how far the sum of two pairs is below that of the same pairs in phase. [Hz, dB]

    By sixth of an octave, the deepest place in each; 0 where nothing is lost. Both are of one
    recording, each as loud as the radio plays it.
    """
    at_best = np.maximum(np.abs(one.values) + np.abs(other.values), 1e-12)
    share = np.abs(one.values + other.values) / at_best
    noise = (one.error + other.error) / at_best
    found: list[tuple[Hertz, Result]] = []
    factor = 2 ** (0.5 / PER_OCTAVE)
    for hz in centres_hz():
        inside = (one.hz >= hz / factor) & (one.hz <= hz * factor) & (one.hz <= one.to_hz)
        where = np.flatnonzero(inside)
        deepest = where[int(np.argmin(share[where]))] if len(where) else -1
        found.append((float(hz), _lost(float(share[deepest]), float(noise[deepest]), len(where))))
    return tuple(found)


def _lost(share: float, noise: float, count: int) -> Result:
    if not count:
        return Refused("the sweep does not reach it")
    if noise > MOST_NOISE:
        return Refused("it is lost in noise")
    lost_db = max(gain_factor_db(share), DEEPEST_DB)
    return Measured(lost_db, 0.05 + gain_factor_db(1 + 2 * noise / max(share, 0.01)))
