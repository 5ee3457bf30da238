"""Two pairs of one recording against each other: the phase that is left, and lines through it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from builder.sound.arrays import Flags, Samples, Spectrum
from builder.sound.bands import pair_level_db
from builder.sound.response import Response
from builder.units import Hertz

POINTS: Final = 240
"""How many frequencies, in equal ratios, a fit looks at."""
WITHIN_DB: Final = 25.0
"""How far below its level a pair may be where its phase is still looked at."""
_SLOPE_OCTAVES: Final = 0.4
_CLEAR_OF_END: Final = 1.3
"""A phase is looked at from so many times the lowest frequency that is heard: at the very end what
lies beyond it, and is not known, turns it most."""


@dataclass(frozen=True, slots=True)
class Between:
    """How the second of two pairs stands to the first, at frequencies in equal ratios.

    `db` is how much louder it is, `phase` how its phase is ahead, unwrapped from the lowest
    frequency on. [rad] `least_phase` is the part that its loudness alone brings with it.
    """

    hz: Samples
    db: Samples
    phase: Samples
    least_phase: Samples


def between(first: Response, second: Response) -> Between | None:
    """Return how the second pair stands to the first, where both are heard; None where nowhere.

    Args:
        first: One pair.
        second: The other, of the same recording.
    """
    both = first.heard & second.heard & _loud(first) & _loud(second)
    lowest, highest = _widest(first.hz, both)
    if highest <= lowest * 2:
        return None
    ratio = np.ones(len(first.hz), np.complex128)
    np.divide(second.values, first.values, out=ratio, where=np.abs(first.values) > 0)
    inside = (first.hz >= lowest) & (first.hz <= highest)
    least = _least_phase(first.hz, ratio, inside)
    points = np.geomspace(_CLEAR_OF_END * lowest, highest / _CLEAR_OF_END, POINTS)
    phase = _unwrapped(first.hz[inside], ratio[inside])
    return Between(
        points,
        np.interp(points, first.hz[inside], 20 * np.log10(np.abs(ratio[inside]))),
        np.interp(points, first.hz[inside], phase),
        np.interp(points, first.hz, least),
    )


def _loud(response: Response) -> Flags:
    """Where a pair is near its level: a bell of the equaliser makes the rest of it no softer."""
    return np.asarray(response.db > pair_level_db(response) - WITHIN_DB)


def _widest(hz: Samples, flags: Flags) -> tuple[Hertz, Hertz]:
    """The ends of the stretch, widest in octaves, in which nearly all flags are set."""
    gaps = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(int)))
    runs = [(hz[a], hz[b - 1]) for a, b in zip(gaps[::2], gaps[1::2], strict=True) if hz[a] > 0]
    return max(_joined(runs), key=lambda run: run[1] / run[0], default=(1.0, 1.0))


def _joined(runs: list[tuple[Hertz, Hertz]]) -> list[tuple[Hertz, Hertz]]:
    """Stretches between which less than a twelfth of an octave is missing are one."""
    found: list[tuple[Hertz, Hertz]] = []
    for low, high in runs:
        if found and low < found[-1][1] * 2 ** (1 / 12):
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return found


def _unwrapped(hz: Samples, ratio: Spectrum) -> Samples:
    """The phase without jumps: a delay common to all is taken out first and put back."""
    turns = np.angle(np.sum(ratio[1:] * np.conj(ratio[:-1]) / np.abs(ratio[1:] * ratio[:-1])))
    slope = turns / (hz[1] - hz[0])
    flat = ratio * np.exp(-1j * slope * hz)
    return np.asarray(np.unwrap(np.angle(flat)) + slope * hz)


def _least_phase(hz: Samples, ratio: Spectrum, inside: Flags) -> Samples:
    """The phase that a filter of this loudness has at least; outside, its slopes go on.

    Source: the phase of a minimum-phase filter is the Hilbert transform of the logarithm of its
    size (Bode); by the cepstrum, Oppenheim and Schafer, from memory.
    """
    octaves = np.log2(np.maximum(hz, hz[1] / 4))
    sizes = np.log(np.maximum(np.abs(ratio), 1e-9))
    at = np.flatnonzero(inside)
    for outside, end in ((slice(0, at[0]), at[0]), (slice(at[-1], None), at[-1])):
        near = inside & (np.abs(octaves - octaves[end]) < _SLOPE_OCTAVES)
        line = np.polyfit(octaves[near], sizes[near], 1)
        sizes[outside] = np.polyval(line, octaves[outside])
    cepstrum = np.fft.irfft(sizes)
    half = len(cepstrum) // 2
    cepstrum[1:half] *= 2
    cepstrum[half + 1 :] = 0
    return np.asarray(np.imag(np.fft.rfft(cepstrum)))
