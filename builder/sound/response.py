"""The response of a pair, by its sweeps: what comes of each frequency, with what noise leaves open.

The recording is divided by the sweep as the recorder's clock took it. What comes before the
response are the radio's distortions, each order at its own time; a window keeps the response alone.
Source: exponential sweeps, Farina, AES convention paper 5093 (2000), from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, log2
from typing import Final

import numpy as np

from builder.sound.arrays import Flags, Samples, Spectrum
from builder.sound.clock import AFTER_S, BEFORE_S
from builder.sound.marks import Placed
from builder.sound.results import CLEAR_OF_NOISE
from builder.sound.track import FIRST_SWEEP, LAST_SWEEP, SWEEP_FROM_HZ, Part, Track
from builder.sound.waves import part_at
from builder.units import Hertz

PRE_S: Final = 0.12
POST_S: Final = 0.45
"""The window around the response: before it the start of the sweep rings, at 10 Hz; after it a
narrow peak at 40 Hz has long died away, and the second order has not yet come."""
LOWEST_HZ: Final = 12.0
STRONG: Final = 0.25
"""What counts as loud, of the loudest."""
SMOOTH_OCTAVES: Final = 1 / 6
FEWEST_BESIDE: Final = 8
"""Steps on each side that noise is looked at in, at least. Chosen by this project."""
FEWEST_POINTS: Final = 33
"""In a stretch that is looked at as one. A sixth of an octave at 25 Hz is less than two steps of a
response wide: by whole steps alone its level was up to 0.7 dB wrong in simulated cars."""


@dataclass(frozen=True, slots=True)
class Response:
    """What a pair gives by frequency, full scale for full scale, and its standard error.

    `hz` grows by equal steps from 0; outside `from_hz` to `to_hz` the sweep says nothing.
    """

    hz: Samples
    values: Spectrum
    error: Samples
    from_hz: Hertz
    to_hz: Hertz

    @property
    def db(self) -> Samples:
        """The size of each value. [dB]"""
        return np.asarray(20 * np.log10(np.maximum(np.abs(self.values), 1e-12)))

    @property
    def heard(self) -> Flags:
        """Where the sweep was, and what came is clear of noise."""
        inside = (self.hz >= self.from_hz) & (self.hz <= self.to_hz)
        return np.asarray(inside & (np.abs(self.values) >= CLEAR_OF_NOISE * self.error))


def quiet_response(channel: Samples, track: Track, placed: Placed) -> Response:
    """Return the mean of the two quiet sweeps; how they differ is its error.

    A gain that moved between them is no noise: it is taken out, and `spoilt.py` tells of it.
    """
    first, last = (
        sweep_response(channel, track, placed, track.named(name))
        for name in (FIRST_SWEEP, LAST_SWEEP)
    )
    last = last / gain_between(first, last)
    length = 2 * (len(first) - 1)
    hz = np.arange(len(first)) * placed.rate_hz / length
    to_hz = min(0.97 * track.choice.sweep_to_hz, 0.47 * placed.rate_hz)
    half = smoothed_power(hz, np.abs(first - last) ** 2 / 4)
    return Response(hz, (first + last) / 2, np.sqrt(half), LOWEST_HZ, to_hz)


def gain_between(first: Spectrum, last: Spectrum) -> float:
    """Return how much louder the second of two responses is, where the first is loud."""
    sizes = np.abs(first)
    strong = sizes > STRONG * np.max(sizes)
    gain = float(np.median(np.abs(last[strong]) / sizes[strong])) if strong.any() else 1.0
    return gain or 1.0


def sweep_response(channel: Samples, track: Track, placed: Placed, sweep: Part) -> Spectrum:
    """Return what one sweep says, by frequencies from 0 in equal steps."""
    heard, times_s = placed.cut(channel, sweep.start_s - BEFORE_S, sweep.end_s + AFTER_S)
    length = 2 ** ceil(log2(len(heard)))
    played = np.fft.rfft(part_at(sweep, track.choice, times_s - sweep.start_s), length)
    came = np.fft.rfft(heard, length)
    hz = np.arange(len(came)) * placed.rate_hz / length
    inside = _edges(hz, SWEEP_FROM_HZ, min(track.choice.sweep_to_hz, 0.49 * placed.rate_hz))
    power = np.abs(played) ** 2
    floor = 1e-9 * float(np.max(power))
    pulse = np.fft.irfft(inside * came * np.conj(played) / (power + floor), length)
    return np.fft.rfft(_windowed(pulse, placed.rate_hz))


def _edges(hz: Samples, from_hz: Hertz, to_hz: Hertz) -> Samples:
    """1 within the sweep, with soft ends, so that its ends do not ring."""
    low = np.clip((hz - 0.75 * from_hz) / (0.4 * from_hz), 0, 1)
    high = np.clip((to_hz - hz) / (0.02 * to_hz), 0, 1)
    return np.asarray(np.sin(low * np.pi / 2) ** 2 * np.sin(high * np.pi / 2) ** 2)


def _windowed(pulse: Samples, rate_hz: Hertz) -> Samples:
    """What lies around the greatest value, its time kept, in as many samples as both take."""
    top = int(np.argmax(np.abs(pulse)))
    top -= len(pulse) if top > len(pulse) // 2 else 0
    before, after = round(PRE_S * rate_hz), round(POST_S * rate_hz)
    fades = np.minimum(np.arange(before + after) / (before / 2), 1)
    fades = np.minimum(fades, (before + after - np.arange(before + after)) / (after / 2))
    kept = np.take(pulse, np.arange(top - before, top + after), mode="wrap")
    kept = kept * np.sin(np.clip(fades, 0, 1) * np.pi / 2) ** 2
    length = 2 ** ceil(log2(len(kept)))
    placed = np.zeros(length)
    placed[np.arange(top - before, top + after) % length] = kept
    return placed


def points_between(hz: Samples, from_hz: Hertz, to_hz: Hertz) -> Samples:
    """Return frequencies from one to another, no farther apart than the steps of a response.

    What lies between two of its values is taken along a straight line, levels in decibels.
    """
    steps = int(np.searchsorted(hz, to_hz) - np.searchsorted(hz, from_hz))
    return np.linspace(from_hz, to_hz, max(FEWEST_POINTS, steps + 2))


def smoothed_power(hz: Samples, power: Samples) -> Samples:
    """Return the mean of a power over a sixth of an octave around each frequency.

    Over a few steps more where that is narrow, none below the sweep: two sweeps differ by chance
    as well, and a handful of steps may be alike where there is much noise.
    """
    sums = np.concatenate([[0.0], np.cumsum(power)])
    factor = 2 ** (SMOOTH_OCTAVES / 2)
    at, step = np.arange(len(hz)), hz[1] - hz[0]
    lowest = ceil(SWEEP_FROM_HZ / step)
    first = np.minimum(np.floor(hz / factor / step), at - FEWEST_BESIDE)
    first = np.clip(first, min(lowest, len(hz) - 1), len(hz) - 1).astype(int)
    last = np.maximum(np.ceil(hz * factor / step), first + 2 * FEWEST_BESIDE).astype(int) + 1
    last = np.clip(last, first + 1, len(hz))
    return np.asarray((sums[last] - sums[first]) / (last - first))
