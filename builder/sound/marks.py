"""Where in a recording the track begins and ends, to a few hundredths of a second."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.ndimage import maximum_filter1d
from scipy.signal import hilbert, oaconvolve

from builder.sound.arrays import Samples, Spectrum
from builder.sound.results import RecordingRefusedError
from builder.sound.track import Kind, Part, Track
from builder.sound.wav_reading import Recording
from builder.sound.waves import part_at
from builder.units import Hertz

LEAST_LIKENESS: Final = 0.10
"""Of a perfect match. A woofer below 60 Hz keeps some 0.3, noise gives under 0.03: seen in
simulations. Chosen by this project."""
LEAST_LEAD: Final = 1.3
"""How much better the best place has to be than any other. Chosen by this project."""
MOST_CLOCK_OFFSET: Final = 1000e-6
_ELSEWHERE_S: Final = 3.0
_SLACK_S: Final = 0.1


@dataclass(frozen=True, slots=True)
class Placed:
    """A track in a recording: the sample at which its second 0 lies, and samples a second."""

    zero: float
    rate_hz: Hertz

    def sample_at(self, track_s: float) -> int:
        """The first sample that is not before a second of the track."""
        return int(np.ceil(self.zero + track_s * self.rate_hz))

    def cut(self, channel: Samples, from_s: float, to_s: float) -> tuple[Samples, Samples]:
        """Return what a channel holds between two seconds of the track, and when each sample is.

        What lies beyond the recording is silence.
        """
        first, last = self.sample_at(from_s), self.sample_at(to_s)
        times_s = np.asarray((np.arange(first, last) - self.zero) / self.rate_hz)
        inside = channel[max(first, 0) : max(last, 0)]
        before = min(max(-first, 0), last - first)
        after = last - first - before - len(inside)
        return np.pad(inside, (before, max(after, 0))), times_s.astype(np.float64)


def find_track(recording: Recording, track: Track) -> Placed:
    """Return where a track lies, by the marks at its ends.

    Raises:
        RecordingRefusedError: marks are missing, or their distance is not that of this track.
    """
    start_s = _found_s(recording, track, "rising_mark", "start")
    end_s = _found_s(recording, track, "falling_mark", "end")
    wanted_s = _first(track, "falling_mark").start_s - _first(track, "rising_mark").start_s
    if abs(end_s - start_s - wanted_s) > wanted_s * MOST_CLOCK_OFFSET + _SLACK_S:
        raise RecordingRefusedError(
            f"the marks are {end_s - start_s:.2f} s apart, those of a track of volume steps "
            f"1 to {track.choice.steps} {wanted_s:.2f} s: say --steps as the track was written, "
            "or pieces of the recording are missing"
        )
    zero = (start_s - _first(track, "rising_mark").start_s) * recording.rate_hz
    return Placed(zero, recording.rate_hz)


def _first(track: Track, kind: Kind) -> Part:
    return next(part for part in track.parts if part.kind == kind)


def _found_s(recording: Recording, track: Track, kind: Kind, where: str) -> float:
    """The second of the recording at which the first mark of a group begins."""
    marks = [part for part in track.parts if part.kind == kind]
    rate_hz = recording.rate_hz
    alike = max((_group(each, marks, track, rate_hz) for each in recording.channels), key=np.max)
    best = int(np.argmax(alike))
    away = round(_ELSEWHERE_S * rate_hz)
    others = np.concatenate([alike[: max(best - away, 0)], alike[best + away :], [0.0]])
    if alike[best] < max(LEAST_LIKENESS, LEAST_LEAD * float(np.max(others))):
        raise RecordingRefusedError(
            f"the marks at the {where} of the track are not heard: record from before its "
            "beginning to after its end, crossfade of the player off, well above the noise"
        )
    return best / rate_hz


def _group(channel: Samples, marks: list[Part], track: Track, rate_hz: Hertz) -> Samples:
    """How much a group of marks is heard that begins at each sample: as much as its weakest.

    Each mark is looked for by itself, since a clock that goes wrong by 300 ppm moves a mark after
    two seconds by ten of its highest waves.
    """
    single = _likeness(channel, _pattern(marks[0], track, rate_hz))
    wide = maximum_filter1d(single, 2 * round(MOST_CLOCK_OFFSET * 2.5 * rate_hz) + 1)
    shifts = [round((mark.start_s - marks[0].start_s) * rate_hz) for mark in marks]
    length = max(len(single) - shifts[-1], 0)
    if not length:
        return np.zeros(1)
    heard = [single[:length], *(wide[shift : shift + length] for shift in shifts[1:])]
    return np.asarray(np.min(heard, axis=0))


def _pattern(mark: Part, track: Track, rate_hz: Hertz) -> Spectrum:
    times_s = np.arange(round(mark.length_s * rate_hz)) / rate_hz
    return np.asarray(hilbert(part_at(mark, track.choice, times_s)))


def _likeness(channel: Samples, pattern: Spectrum) -> Samples:
    """How much a channel is like a mark that begins at each sample: 0 to 1, whatever its phase."""
    if len(channel) <= len(pattern):
        return np.zeros(1)
    along = np.abs(oaconvolve(channel, np.conj(pattern[::-1]), mode="valid"))
    power = np.concatenate([[0.0], np.cumsum(channel**2)])
    heard = power[len(pattern) :] - power[: -len(pattern)]
    # A stretch that is all but silent is like nothing: its few steps would be like anything.
    floor = 1e-4 * float(np.max(heard)) + 1e-12
    whole = np.sum(np.real(pattern) ** 2)
    return np.asarray(along / np.sqrt(np.maximum(heard, floor) * whole))
