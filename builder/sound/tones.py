"""How loud a tone is, with its harmonics and with what is left over, by least squares."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.marks import Placed
from builder.sound.track import Part
from builder.units import Hertz

HIGHEST_ORDER: Final = 10
SETTLED_S: Final = 0.32
"""What of a burst is left out at its beginning: a limiter needs a while. Chosen by this project."""
CLEAR_OF_END_S: Final = 0.08
"""What is left out at its end: its place is known to some hundredths of a second."""


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone as it was recorded, in RMS of full scale; `orders` are harmonics from the second.

    `noise_rms` is what is left when tone and harmonics are taken away, `count` how many samples.
    """

    hz: Hertz
    rms: float
    orders: tuple[float, ...]
    noise_rms: float
    count: int

    @property
    def error_rms(self) -> float:
        """The standard error of the level of the tone and of each order."""
        return self.noise_rms * sqrt(2 / self.count)

    @property
    def distortion(self) -> float:
        """All orders up to the tenth together, as a share of the tone; 0 for silence."""
        return hypot(*self.orders) / self.rms if self.rms else 0.0

    @property
    def distortion_error(self) -> float:
        """What noise may add to that share."""
        return self.error_rms * sqrt(max(len(self.orders), 1)) / self.rms if self.rms else 1.0


def tone_of(channel: Samples, placed: Placed, part: Part) -> Tone:
    """Return the tone of a burst, once it has settled."""
    skip_s = min(SETTLED_S, part.length_s / 3)
    heard, times_s = placed.cut(channel, part.start_s + skip_s, part.end_s - CLEAR_OF_END_S)
    return fitted_tone(heard, times_s, part.hz, placed.rate_hz)


def fitted_tone(heard: Samples, times_s: Samples, hz: Hertz, rate_hz: Hertz) -> Tone:
    """Return a tone of known frequency, and its harmonics below half the rate."""
    orders = [k for k in range(1, HIGHEST_ORDER + 1) if k * hz < 0.47 * rate_hz]
    angles = 2 * np.pi * hz * np.outer(times_s, orders)
    waves = np.hstack([np.cos(angles), np.sin(angles), np.ones((len(heard), 1))])
    weights, *_ = np.linalg.lstsq(waves, heard, rcond=None)
    sizes = np.hypot(weights[: len(orders)], weights[len(orders) : -1]) / 2**0.5
    left = heard - waves @ weights
    noise_rms = float(np.sqrt(np.sum(left**2) / max(1, len(heard) - waves.shape[1])))
    return Tone(hz, float(sizes[0]), tuple(float(s) for s in sizes[1:]), noise_rms, len(heard))


def envelope(heard: Samples, rate_hz: Hertz, each_s: float) -> Samples:
    """Return the RMS of each stretch of `each_s` seconds; a rest at the end is left out."""
    size = max(1, round(each_s * rate_hz))
    whole = heard[: len(heard) // size * size].reshape(-1, size)
    return np.asarray(np.sqrt(np.mean(whole**2, axis=1)))
