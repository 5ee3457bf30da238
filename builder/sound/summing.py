"""What joining two pairs would give, worked out before anybody cuts a wire."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from builder.sound.bands import PER_OCTAVE, centres_hz
from builder.sound.response import Response, points_between
from builder.sound.results import Measured, Refused, Result, noise_db
from builder.units import Decibels, Hertz, Milliseconds, gain_factor_db

DEEPEST_DB: Final = -40.0
"""What is written for a null: how deep one is below that, noise decides."""
MOST_NOISE: Final = 0.1
"""Of what both have at best: beyond it noise fills a null that may be there."""
_OWN_DB: Final = 0.05
_OWN_SHARE: Final = 5e-4
"""What either response is off by itself, of both: it fills a null as noise does. From simulated
cars."""

Lost = tuple[tuple[Hertz, Result], ...]


@dataclass(frozen=True, slots=True)
class InStep:
    """The sum of two pairs of which the earlier waits for the later.

    `turned` says that the legs of one change places as well, because less is lost then. `lost_db`
    is by sixth of an octave.
    """

    turned: bool
    lost_db: Lost


def lost_in_sum(one: Response, other: Response) -> Lost:
    """Return how far the sum of two pairs is below that of the same pairs in phase. [Hz, dB]

    By sixth of an octave, the deepest place in each; 0 where nothing is lost. Both are of one
    recording, each as loud as the radio plays it.
    """
    factor = 2 ** (0.5 / PER_OCTAVE)
    return tuple(
        (float(hz), _deepest(one, other, hz / factor, min(hz * factor, one.to_hz)))
        for hz in centres_hz()
    )


def _deepest(one: Response, other: Response, from_hz: Hertz, to_hz: Hertz) -> Result:
    if from_hz >= to_hz:
        return Refused("the sweep does not reach it")
    points = points_between(one.hz, from_hz, to_hz)
    first, second = (np.interp(points, one.hz, each.values) for each in (one, other))
    at_best = np.maximum(np.abs(first) + np.abs(second), 1e-12)
    share = np.abs(first + second) / at_best
    at = int(np.argmin(share))
    noise = np.interp(points[at], one.hz, one.error + other.error) / at_best[at]
    return _lost(float(share[at]), float(noise))


def in_step(one: Response, other: Response, late_ms: Result) -> InStep | Refused:
    """Return the sum once the delay between two pairs is made good, as a converter can.

    Args:
        one: The first pair.
        other: The second, of the same recording.
        late_ms: By how much the second comes later.
    """
    if isinstance(late_ms, Refused):
        return Refused(f"what delay would bring them into step is not known: {late_ms.reason}")
    both = [lost_in_sum(one, _moved(other, late_ms.value, sign)) for sign in (1, -1)]
    turned = _worst_db(both[1]) > _worst_db(both[0])
    return InStep(turned, both[int(turned)])


def _moved(response: Response, late_ms: Milliseconds, sign: int) -> Response:
    """A pair played earlier, and turned over where the sign is −1."""
    earlier = np.exp(2j * np.pi * response.hz * late_ms / 1000)
    return replace(response, values=sign * response.values * earlier)


def _worst_db(lost: Lost) -> Decibels:
    return min((each.value for _, each in lost if isinstance(each, Measured)), default=0.0)


def _lost(share: float, noise: float) -> Result:
    if noise > MOST_NOISE:
        return Refused("it is lost in noise")
    lost_db = max(gain_factor_db(share), DEEPEST_DB)
    return Measured(
        lost_db, _OWN_DB + min(noise_db(share, noise + _OWN_SHARE), lost_db - DEEPEST_DB)
    )
