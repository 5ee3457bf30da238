"""How loud a tone is, with its harmonics and with what is left over, by least squares."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import Final

import numpy as np

from builder.sound.arrays import Samples, Spectrum
from builder.sound.marks import Placed
from builder.sound.results import noise_db
from builder.sound.track import Part, Track
from builder.units import Decibels, Hertz

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
    def error_db(self) -> Decibels:
        """What noise leaves open of that level."""
        return noise_db(self.rms, self.error_rms)

    @property
    def distortion(self) -> float:
        """All orders up to the tenth together, as a share of the tone; 0 for silence."""
        return hypot(*self.orders) / self.rms if self.rms else 0.0

    @property
    def distortion_error(self) -> float:
        """What noise may add to that share."""
        return self.error_rms * sqrt(max(len(self.orders), 1)) / self.rms if self.rms else 1.0


def tones_of(channel: Samples, track: Track, placed: Placed) -> dict[str, Tone]:
    """Return every tone of a track on a channel by the name of its part, once it has settled."""
    return {
        part.name: _tone(channel, placed, part)
        for part in track.parts
        if part.kind == "tone" and part.length_s > SETTLED_S + CLEAR_OF_END_S
    }


def _tone(channel: Samples, placed: Placed, part: Part) -> Tone:
    skip_s = min(SETTLED_S, part.length_s / 3)
    heard, times_s = placed.cut(channel, part.start_s + skip_s, part.end_s - CLEAR_OF_END_S)
    return fitted_tone(heard, times_s, part.hz, placed.rate_hz)


def fitted_tone(heard: Samples, times_s: Samples, hz: Hertz, rate_hz: Hertz) -> Tone:
    """Return a tone of known frequency, and its harmonics below half the rate.

    Args:
        heard: Samples of the tone, a tenth of a second and more.
        times_s: When each of them is, in equal steps. [s]
        hz: Its frequency. [Hz]
        rate_hz: Samples a second. [Hz]
    """
    highest = min(HIGHEST_ORDER, int(0.47 * rate_hz / hz))
    turned = np.exp(2j * np.pi * hz * times_s)
    waves = np.empty((highest + 1, len(heard)), np.complex128)
    waves[0] = 1.0
    for order in range(1, highest + 1):
        waves[order] = waves[order - 1] * turned
    weights = _weights(waves, heard)
    left = heard - weights[0].real
    for order in range(1, highest + 1):
        left = left - 2 * (weights[order] * waves[order]).real
    noise_rms = float(np.sqrt(np.sum(left**2) / max(1, len(heard) - 2 * highest - 1)))
    sizes = 2**0.5 * np.abs(weights)
    return Tone(hz, float(sizes[1]), tuple(float(s) for s in sizes[2:]), noise_rms, len(heard))


def _weights(waves: Spectrum, heard: Samples) -> Spectrum:
    """The least-squares weight of each wave, its mirror image being given the conjugate one.

    The product of two waves is a wave again, so all sums are sums of waves.
    """
    highest = len(waves) - 1
    sums = np.concatenate([np.sum(waves, axis=1), np.sum(waves[1:] * waves[-1], axis=1)])
    orders = np.arange(-highest, highest + 1)
    apart = orders[None, :] - orders[:, None]
    crossed = np.where(apart < 0, np.conj(sums[np.abs(apart)]), sums[np.abs(apart)])
    along = np.sum(np.conj(waves) * heard, axis=1)
    wanted = np.concatenate([np.conj(along[:0:-1]), along])
    return np.asarray(np.linalg.solve(crossed, wanted)[highest:])


def envelope(heard: Samples, rate_hz: Hertz, each_s: float) -> Samples:
    """Return the RMS of each stretch of `each_s` seconds; a rest at the end is left out."""
    size = max(1, round(each_s * rate_hz))
    whole = heard[: len(heard) // size * size].reshape(-1, size)
    return np.asarray(np.sqrt(np.mean(whole**2, axis=1)))
