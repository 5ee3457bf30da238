"""How fast a recorder's clock goes against the player's, by the two equal sweeps of a track."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, log2
from typing import Final

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.marks import Placed
from builder.sound.results import Measured, RecordingRefusedError
from builder.sound.track import FIRST_SWEEP, LAST_SWEEP, LOUD_SWEEP, Track
from builder.sound.wav_reading import Recording

BEFORE_S: Final = 0.25
AFTER_S: Final = 1.2
"""What is cut around a sweep: its place is known to a tenth of a second, and a pair rings on."""
MOST_JUMP_S: Final = 0.003
"""By how much the loud sweep may seem out of place. A bass limiter moves it by up to some 1.5 ms,
pieces that a recorder loses are 5 ms and longer. Chosen by this project."""


@dataclass(frozen=True, slots=True)
class Clock:
    """Where the track lies by the recorder's true rate, and how far that is from its own. [ppm]"""

    placed: Placed
    offset_ppm: Measured


def set_clock(recording: Recording, track: Track, rough: Placed) -> Clock:
    """Return the place of a track with the samples a second that the recorder truly took.

    Only sweeps of one level tell it: a limiter moves a louder one.

    Raises:
        RecordingRefusedError: the sweeps are not one sound at two times, or pieces are missing.
    """
    apart_s = track.named(LAST_SWEEP).start_s - track.named(FIRST_SWEEP).start_s
    lags = [_lag(each, track, rough, LAST_SWEEP) for each in recording.channels]
    lag, error = min(lags, key=lambda each: each[1])
    rate_hz = rough.rate_hz * (1 + lag / (apart_s * rough.rate_hz))
    placed = Placed(rough.zero, rate_hz)
    best = recording.channels[lags.index((lag, error))]
    _refuse_missing_pieces(best, track, placed)
    ppm = 1e6 * lag / (apart_s * rough.rate_hz)
    return Clock(placed, Measured(ppm, 0.02 + 1e6 * 2 * error / (apart_s * rough.rate_hz)))


def _refuse_missing_pieces(channel: Samples, track: Track, placed: Placed) -> None:
    jump, _ = _lag(channel, track, placed, LOUD_SWEEP)
    if abs(jump) > MOST_JUMP_S * placed.rate_hz:
        raise RecordingRefusedError(
            f"the loud sweep is {1000 * abs(jump) / placed.rate_hz:.0f} ms out of its place: "
            "the recorder or the player lost a piece; record again"
        )


def _lag(channel: Samples, track: Track, placed: Placed, name: str) -> tuple[float, float]:
    """How many samples later than expected a sweep comes, and its standard error."""
    first, second = (_piece(channel, track, placed, each) for each in (FIRST_SWEEP, name))
    length = min(len(first), len(second))
    whole = (track.named(name).start_s - track.named(FIRST_SWEEP).start_s) * placed.rate_hz
    cut = placed.sample_at(track.named(name).start_s) - placed.sample_at(
        track.named(FIRST_SWEEP).start_s
    )
    lag, error = lag_between(first[:length], second[:length])
    return lag + cut - whole, error


def _piece(channel: Samples, track: Track, placed: Placed, name: str) -> Samples:
    """A sweep, cut at a whole sample that lies alike to its beginning by `sample_at`."""
    sweep = track.named(name)
    first = placed.sample_at(sweep.start_s) - round(BEFORE_S * placed.rate_hz)
    length = round((BEFORE_S + sweep.length_s + AFTER_S) * placed.rate_hz)
    inside = channel[max(first, 0) : max(first + length, 0)]
    return np.pad(inside, (max(-first, 0), max(0, length - len(inside) - max(-first, 0))))


def lag_between(first: Samples, second: Samples) -> tuple[float, float]:
    """Return how many samples later a sound comes in the second of two pieces, and the error of it.

    The pieces are of one length. First the best whole sample, then the slope of the phase by
    least squares, each frequency weighing what both pieces hold of it.

    Raises:
        RecordingRefusedError: a piece is silent.
    """
    length = 2 ** ceil(log2(2 * len(first)))
    crossed = np.fft.rfft(second, length) * np.conj(np.fft.rfft(first, length))
    if not np.abs(crossed).any():
        raise RecordingRefusedError("a sweep of the track is silent; is the lead on the pair?")
    along = np.fft.irfft(crossed, length)
    whole = int(np.argmax(np.abs(along)))
    whole -= length if whole > length // 2 else 0
    turns = 2 * np.pi * np.arange(len(crossed)) / length
    left = np.angle(crossed * np.exp(1j * turns * whole) * np.sign(along[whole]))
    weights = np.abs(crossed)
    scale = float(np.sum(weights * turns**2))
    part = -float(np.sum(weights * turns * left)) / scale
    misses = left + turns * part
    error = float(np.sqrt(np.sum((weights * turns * misses) ** 2)) / scale)
    return whole + part, error
