"""The samples of a track, made anew at any rate: that of a file, or that of a recorder's clock."""

from __future__ import annotations

from math import log, tau

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.track import MARK_S, SWEEP_FROM_HZ, Choice, Part, Sides, Track
from builder.units import Hertz

MARK_FROM_HZ, MARK_TO_HZ = 30.0, 16_000.0
"""A mark passes through a woofer's filter as through a tweeter's, each keeping a piece of it."""
_RISE_S, _FALL_S = 0.1, 0.004
_EDGE_S = 0.01


def samples_of(track: Track, rate_hz: Hertz, sides: Sides) -> Samples:
    """Return one channel of a track, 1 being full scale, dithered by nothing.

    Args:
        track: What stands in it.
        rate_hz: Samples a second; a recorder whose clock is fast has more of them. [Hz] > 0
        sides: The channel, "left" or "right"; "both" is what a player makes of it in mono.
    """
    whole = np.zeros(round(track.length_s * rate_hz))
    for part in track.parts:
        if "both" in (part.sides, sides) or part.sides == sides:
            first = int(np.ceil(part.start_s * rate_hz))
            last = min(len(whole), int(np.floor(part.end_s * rate_hz)) + 1)
            times_s = np.arange(first, last) / rate_hz - part.start_s
            whole[first:last] = part_at(part, track.choice, times_s)
    return whole


def part_at(part: Part, choice: Choice, times_s: Samples) -> Samples:
    """Return a part at any times, counted from its own beginning; 0 before and after. [s]"""
    amplitude = 10 ** (part.level_dbfs / 20)
    if part.kind == "silence":
        return np.zeros(len(times_s))
    if part.kind == "tone":
        edges = _fade(times_s, part.length_s, _EDGE_S, _EDGE_S)
        return amplitude * edges * np.sin(tau * part.hz * times_s)
    if part.kind == "sweep":
        edges = _fade(times_s, part.length_s, _RISE_S, _FALL_S)
        phase = _sweep_phase(times_s, part.length_s, SWEEP_FROM_HZ, choice.sweep_to_hz)
        return amplitude * edges * np.sin(phase)
    return amplitude * _mark(times_s, part.kind == "falling_mark", choice)


def _mark(times_s: Samples, falls: bool, choice: Choice) -> Samples:
    along_s = MARK_S - times_s if falls else times_s
    top_hz = min(MARK_TO_HZ, 0.9 * choice.sweep_to_hz)
    phase = _sweep_phase(along_s, MARK_S, MARK_FROM_HZ, top_hz)
    return _fade(times_s, MARK_S, _EDGE_S, _EDGE_S) * np.sin(phase)


def _sweep_phase(times_s: Samples, length_s: float, from_hz: Hertz, to_hz: Hertz) -> Samples:
    """The phase of a sine whose frequency grows by equal ratios in equal times. [rad]"""
    scale_s = length_s / log(to_hz / from_hz)
    within_s = np.clip(times_s, 0, length_s)
    return np.asarray(tau * from_hz * scale_s * np.expm1(within_s / scale_s))


def _fade(times_s: Samples, length_s: float, rise_s: float, fall_s: float) -> Samples:
    """1 within, 0 outside, and a raised cosine at both edges."""
    rising = np.clip(times_s / rise_s, 0, 1)
    falling = np.clip((length_s - times_s) / fall_s, 0, 1)
    return np.asarray(np.sin(rising * tau / 4) ** 2 * np.sin(falling * tau / 4) ** 2)
