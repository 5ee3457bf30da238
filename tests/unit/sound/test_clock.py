"""The recorder's clock against the player's, and the marks that the track is found by."""

from __future__ import annotations

import numpy as np
import pytest
from sound_car import RATE, SHORT, Car, Pair, half

from builder.sound.clock import lag_between, set_clock
from builder.sound.marks import find_track
from builder.sound.results import RecordingRefusedError
from builder.sound.track import FIRST_SWEEP, LAST_SWEEP, LOUD_SWEEP, Choice, plan_track
from builder.sound.wav_reading import Recording


@pytest.mark.parametrize(
    ("ppm", "filters"),
    [
        (300.0, []),
        (-300.0, [half("Linkwitz-Riley 4", "low", 70)]),
        (17.0, [half("Butterworth 2", "high", 4000)]),
    ],
)
def test_the_same_sweep_twice_gives_the_clock_within_a_tenth_of_a_ppm(ppm, filters):
    recording = Car([Pair(filters=filters)], ppm=ppm).recorded()
    rough = find_track(recording, SHORT)
    assert rough.zero / RATE == pytest.approx(1.234567, abs=0.02)
    found = set_clock(recording, SHORT, rough).offset_ppm
    assert found.value == pytest.approx(ppm, abs=0.1)
    assert abs(found.value - ppm) <= found.plus_minus


def test_sweeps_of_two_levels_would_be_wrong_through_a_bass_limiter():
    """Which is why the track has the quiet one twice."""
    woofer = Pair(filters=[half("Linkwitz-Riley 4", "low", 90)])
    car = Car([woofer], limit_v=1.0, limit_s=0.1)
    recording = car.recorded()
    placed = set_clock(recording, SHORT, find_track(recording, SHORT)).placed
    pieces = []
    for name in (FIRST_SWEEP, LOUD_SWEEP, LAST_SWEEP):
        begin_s = SHORT.named(name).start_s
        pieces.append(placed.cut(recording.channels[0], begin_s - 0.2, begin_s + 4.0))
    # All three are cut where the clock says, to the part of a sample that a whole one leaves.
    offsets = [(times[0] - SHORT.named(name).start_s) * placed.rate_hz for (_, times), name in
               zip(pieces, (FIRST_SWEEP, LOUD_SWEEP, LAST_SWEEP), strict=True)]  # fmt: skip
    length = min(len(heard) for heard, _ in pieces)
    first, loud, last = (heard[:length] for heard, _ in pieces)
    same, _ = lag_between(first, last)
    other, _ = lag_between(first, loud)
    apart_s = SHORT.named(LAST_SWEEP).start_s - SHORT.named(FIRST_SWEEP).start_s
    ppm = [1e6 * lag / RATE / apart_s for lag in
           (same + offsets[2] - offsets[0], other + offsets[1] - offsets[0])]  # fmt: skip
    assert abs(ppm[0]) < 0.1 and abs(ppm[1]) > 2


@pytest.mark.parametrize("late", [0.0, 0.37, 12.5, -3.25])
def test_a_lag_is_told_to_a_small_part_of_a_sample(late):
    draw = np.random.default_rng(3)
    spectrum = np.fft.rfft(draw.standard_normal(8192))
    spectrum[1000:] = 0
    turns = 2 * np.pi * np.arange(4097) / 8192
    window = np.hanning(8192)
    first, second = (
        np.fft.irfft(spectrum * np.exp(-1j * turns * lag)) * window for lag in (0, late)
    )
    found, error = lag_between(first, second)
    assert found == pytest.approx(late, abs=0.02 + 0.01 * abs(late)) and error < 0.1


def test_a_silent_sweep_is_refused():
    with pytest.raises(RecordingRefusedError, match="silent"):
        lag_between(np.zeros(100), np.zeros(100))


def test_another_track_is_told_by_the_distance_of_its_marks():
    recording = Car([Pair()]).recorded()
    other = plan_track(Choice(steps=4, sweep_s=3.0, turn_s=0.6, meter_s=1.5, silence_s=0.6))
    with pytest.raises(RecordingRefusedError, match="say --steps"):
        find_track(recording, other)


@pytest.mark.parametrize("noise", [0.0, 0.01])
def test_where_no_track_is_none_is_found(noise):
    heard = noise * np.random.default_rng(2).standard_normal(60 * RATE)
    with pytest.raises(RecordingRefusedError, match="marks at the start"):
        find_track(Recording(RATE, (heard,)), SHORT)


def test_what_is_shorter_than_a_mark_holds_none():
    with pytest.raises(RecordingRefusedError, match="marks at the start"):
        find_track(Recording(RATE, (np.ones(2000),)), SHORT)
