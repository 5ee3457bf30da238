"""The test track: what stands in it, how loud, and the files that a player gets."""

from __future__ import annotations

import io
import wave
from itertools import combinations, pairwise

import numpy as np
import pytest
from scipy.io import wavfile
from scipy.signal import hilbert
from shipped_book import loombook

from builder.sound.track import (
    END_MARKS_S,
    FIRST_SWEEP,
    LAST_SWEEP,
    LOUD_SWEEP,
    START_MARKS_S,
    Choice,
    plan_track,
)
from builder.sound.wav_writing import wav_of
from builder.sound.waves import part_at, samples_of

TRACK = plan_track(Choice())
SHORT = plan_track(Choice(steps=2, sweep_s=3, turn_s=0.5, meter_s=1, silence_s=0.5))


def test_parts_follow_each_other_and_leave_room_for_what_a_sweep_rings():
    for before, after in pairwise(TRACK.parts):
        assert after.start_s >= before.end_s
        if before.kind == "sweep":
            assert after.start_s - before.end_s >= 1
    assert 120 < TRACK.length_s < 240


def test_the_same_sweep_stands_at_both_ends_and_a_louder_one_between():
    first, loud, last = (TRACK.named(name) for name in (FIRST_SWEEP, LOUD_SWEEP, LAST_SWEEP))
    assert (first.level_dbfs, loud.level_dbfs, last.level_dbfs) == (-20, -3, -20)
    assert first.start_s < loud.start_s < last.start_s
    times_s = np.arange(0, 10, 0.001)
    one, other = (part_at(part, TRACK.choice, times_s) for part in (first, last))
    assert np.array_equal(one, other)


@pytest.mark.parametrize("step", range(1, 9))
def test_each_step_has_four_short_bursts_the_quiet_ones_first(step):
    bursts = TRACK.of_step(step)
    said = [(burst.hz, burst.level_dbfs) for burst in bursts]
    assert said == [(40, -20), (1000, -20), (40, 0), (1000, 0)]
    assert all(burst.length_s <= 1 for burst in bursts)
    beeps = [part for part in TRACK.parts if part.step == step and "beep" in part.name]
    assert sum(5 if beep.length_s > 0.3 else 1 for beep in beeps) == step


def test_nothing_but_the_loud_bursts_and_sweep_is_louder_than_the_tone_for_the_meter():
    loud = {part.name for part in TRACK.parts if part.level_dbfs > -10}
    bursts = {burst.name for step in range(1, 9) for burst in TRACK.of_step(step)[2:]}
    assert loud == {LOUD_SWEEP, *bursts}


def test_no_two_distances_of_marks_are_alike():
    far = [b - a for marks in (START_MARKS_S, END_MARKS_S) for a, b in combinations(marks, 2)]
    assert min(abs(a - b) for a, b in combinations(far, 2)) > 0.1


@pytest.mark.parametrize("at_share", [0.1, 0.5, 0.9])
def test_the_sweep_grows_by_equal_ratios_from_10_hz_to_22_khz(at_share):
    sweep = TRACK.named(LOUD_SWEEP)
    times_s = np.arange(480_000) / 48_000
    phase = np.unwrap(np.angle(hilbert(part_at(sweep, TRACK.choice, times_s))))
    here = int(at_share * len(times_s))
    found_hz = (phase[here + 20] - phase[here - 20]) / (40 / 48_000) / (2 * np.pi)
    assert found_hz == pytest.approx(10 * 2200**at_share, rel=0.01)


def test_levels_are_those_of_a_sine_that_reaches_full_scale_at_0_dbfs():
    burst = TRACK.of_step(1)[3]
    times_s = np.arange(0.1, 0.8, 1 / 48_000)
    assert np.std(part_at(burst, TRACK.choice, times_s)) == pytest.approx(0.5**0.5, rel=1e-3)
    sweep = part_at(TRACK.named(FIRST_SWEEP), TRACK.choice, np.arange(1, 9.9, 1 / 48_000))
    assert np.std(sweep) == pytest.approx(0.1 * 0.5**0.5, rel=1e-3)


def test_each_side_is_told_alone():
    left, right = (samples_of(SHORT, 48_000, side) for side in ("left", "right"))
    alone = [part for part in SHORT.parts if part.sides != "both"]
    assert len(alone) == 6
    for part in alone:
        here = slice(round(part.start_s * 48_000) + 999, round(part.end_s * 48_000) - 999)
        heard = np.std(left[here]), np.std(right[here])
        assert heard == pytest.approx((0.0707, 0) if part.sides == "left" else (0, 0.0707), rel=0.1)
    assert np.array_equal(left[:240_000], right[:240_000])


def test_a_recorder_whose_clock_is_fast_has_more_samples_of_the_same_sound():
    plain, fast = (samples_of(SHORT, rate, "both") for rate in (48_000, 48_000 * 1.0003))
    assert len(fast) - len(plain) == pytest.approx(len(plain) * 0.0003, abs=1)


def test_a_file_is_read_alike_by_the_standard_library_and_by_scipy():
    left = samples_of(SHORT, 48_000, "left")
    content = wav_of(left, 0 * left, 48_000)
    with wave.open(io.BytesIO(content)) as told:
        said = told.getnchannels(), told.getsampwidth(), told.getframerate(), told.getnframes()
    assert said == (2, 2, 48_000, len(left))
    rate_hz, read = wavfile.read(io.BytesIO(content))
    assert rate_hz == 48_000 and not read[:, 1].any()
    assert np.max(np.abs(read[:, 0] / 32_767 - left)) < 2 / 32_767
    assert content == wav_of(left, 0 * left, 48_000)


@pytest.mark.parametrize(
    ("said", "refused"),
    [
        ({"steps": 0}, "1 to 30 steps"),
        ({"rate_hz": 4000}, "samples a second"),
        ({"sweep_s": float("nan")}, "seconds"),
    ],
)
def test_a_track_that_nobody_could_play_is_refused(said, refused):
    with pytest.raises(ValueError, match=refused):
        Choice(**said)


def test_the_command_writes_three_files_and_says_when_to_turn(tmp_path):
    done = loombook("sound", "track", tmp_path / "car.wav", "--steps", "1", "--rate", "44100")
    assert done.exit_code == 0, done.output
    sizes = {path.name: path.stat().st_size for path in tmp_path.iterdir()}
    assert set(sizes) == {"car.wav", "car-left.wav", "car-right.wav"}
    assert len(set(sizes.values())) == 1
    assert "turn to volume step 1; loud from" in done.output and "read the meter" in done.output
    again = loombook("sound", "track", tmp_path / "car.wav", "--steps", "1")
    assert again.exit_code == 2 and "exists already" in again.output
    other = loombook("sound", "track", tmp_path / "car.mp3")
    assert other.exit_code == 2 and "should end in .wav" in other.output
