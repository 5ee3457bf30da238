"""What a recorder or a player has spoilt: heard in the recording, and named."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Final

import numpy as np

from builder.sound.arrays import Flags, Samples
from builder.sound.levels import StepLevels
from builder.sound.marks import Placed
from builder.sound.response import Response, gain_between, sweep_response
from builder.sound.results import Measured, RecordingRefusedError
from builder.sound.track import FIRST_SWEEP, LAST_SWEEP, Track
from builder.sound.wav_reading import Recording
from builder.units import gain_factor_db

FULL: Final = 0.9995
"""A sample so near full scale may be cut off there; several in a row are."""
IN_A_ROW: Final = 3
SOFTEST_PEAK: Final = 0.003
"""Peaks below it leave the steps of 16 bits coarser than what is looked for."""
CHANGED_DB: Final = 0.3
"""By how much the gain may change from the first sweep to the last."""
HELD_BACK_DB: Final = 1.0
"""What may be missing between quiet and loud at the lowest step: nothing limits there yet."""
LEAST_ABOVE_NOISE_DB: Final = 20.0
LIKE_EACH_OTHER: Final = 1e-6
"""How little two channels may differ to be one signal written twice. All of these: chosen by this
project."""


def refuse_unusable(recording: Recording, track: Track) -> None:
    """Refuse a recording that is too slow for a track, cut off at full scale, or all but silent.

    Raises:
        RecordingRefusedError: it is one of these.
    """
    if recording.rate_hz < 2 * track.choice.sweep_to_hz:
        raise RecordingRefusedError(
            f"it has {recording.rate_hz} samples a second: record at 44100 or 48000"
        )
    peaks = [float(np.max(np.abs(each))) for each in recording.channels]
    if max(peaks) < SOFTEST_PEAK:
        raise RecordingRefusedError(
            f"the loudest sample is {max(peaks):.4f} of full scale: turn the recorder's input up"
        )
    for number, channel in enumerate(recording.channels, 1):
        if _longest_run(np.abs(channel) >= FULL) >= IN_A_ROW:
            raise RecordingRefusedError(
                f"channel {number} is cut off at full scale: turn the recorder's input down until "
                "the loudest part stays below it"
            )


def _longest_run(flags: Flags) -> int:
    """How many values in a row are set, at most up to what counts."""
    held = flags
    for length in range(IN_A_ROW):
        if not held.any():
            return length
        held = held[:-1] & flags[length + 1 :]
    return IN_A_ROW


def refuse_one_signal(recording: Recording) -> None:
    """Refuse a recording of which two channels hold one signal: nobody knows of which pair.

    Raises:
        RecordingRefusedError: it is so.
    """
    for a, b in combinations(range(len(recording.channels)), 2):
        if _are_one(recording.channels[a], recording.channels[b]):
            raise RecordingRefusedError(
                f"channels {a + 1} and {b + 1} hold one and the same signal: the input is mono, or "
                "one lead is on both. Of which pair it is, or whether it is the sum of both, "
                "nobody knows: use an input of its own for each pair"
            )


def _are_one(first: Samples, second: Samples) -> bool:
    louder = max(float(np.std(first)), 1e-12)
    return float(np.std(first - second)) < LIKE_EACH_OTHER * louder


def gain_change(channel: Samples, track: Track, placed: Placed) -> str:
    """Return how the two quiet sweeps differ in level, as a sentence; nothing where they do not."""
    first, last = (
        sweep_response(channel, track, placed, track.named(name))
        for name in (FIRST_SWEEP, LAST_SWEEP)
    )
    change_db = gain_factor_db(gain_between(first, last))
    if abs(change_db) > CHANGED_DB:
        return (
            f"the sweep at the end is {change_db:+.1f} dB against that at the start: a gain "
            "control was on, or the volume was not turned back"
        )
    return ""


def why_gain_moved(
    channel: Samples, track: Track, placed: Placed, steps: Sequence[StepLevels]
) -> str:
    """Return why levels of this channel cannot be trusted, as a sentence; nothing when they can.

    A gain control of a recorder turns up what is soft and down what is loud: the two quiet sweeps
    then differ, or the lowest volume step already lacks some of the 20 dB from quiet to loud.
    """
    if changed := gain_change(channel, track, placed):
        return changed
    lowest = [each.compressed_db for each in steps if each.step == 1]
    held = [each.value for each in lowest if isinstance(each, Measured)]
    if held and min(held) > HELD_BACK_DB:
        return (
            f"at the lowest step {min(held):.1f} dB are missing from quiet to loud already: a gain "
            "control of recorder or player was on, or that step is too loud to begin with"
        )
    return ""


def refuse_noise(response: Response, number: int) -> None:
    """Refuse a channel on which nothing is heard clearly.

    Raises:
        RecordingRefusedError: no part of the sweep is far enough above noise.
    """
    inside = (response.hz > response.from_hz) & (response.hz < response.to_hz)
    above = np.abs(response.values[inside]) / np.maximum(response.error[inside], 1e-12)
    if gain_factor_db(float(np.percentile(above, 90))) < LEAST_ABOVE_NOISE_DB and not (
        np.count_nonzero(above > 30) > 100
    ):
        raise RecordingRefusedError(
            f"channel {number} has too little signal above its noise: turn the recorder's input "
            "up, look for a lead that is off, stop the engine"
        )
