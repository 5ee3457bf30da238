"""What lead and recorder do themselves: taken out of every figure, or the recording is refused."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from scipy import signal
from sound_car import RATE, SHORT, Car, Pair, peak

from builder.sound.reading import Said, read_recording
from builder.sound.results import Measured, RecordingRefusedError
from builder.sound.wav_reading import Recording

BELL = peak(60, 4, 1)
BASS_DB = (6.0, 0.0, -6.0)
SAID = Said(SHORT.choice, (8.0 * 10**-0.5 * 10 ** (0.0 / 20),), None)


def cut(recording, corner_hz):
    """The same through an input that cuts the bass twice as steeply as a plain one."""
    sos = signal.butter(2, corner_hz, "high", fs=RATE, output="sos")
    return Recording(RATE, tuple(signal.sosfilt(sos, each) for each in recording.channels))


@cache
def recorded():
    """A pair with loudness, and the player without a car."""
    car = Car([Pair("left", 8.0, [BELL], apart_db=25.0)], bass_db=BASS_DB, rail_v=10.5)
    return car.recorded(), Car([Pair()], begins_s=0.7).recorded()


def read(corner_hz):
    car, loop = recorded()
    facts = read_recording(cut(car, corner_hz), SAID, cut(loop, corner_hz))
    (pair,) = facts.pairs
    return pair


@pytest.mark.parametrize("corner_hz", [20.0, 90.0])
def test_bass_volts_and_distortion_are_those_of_the_pair_whatever_the_input_cuts(corner_hz):
    found, plain = read(corner_hz), read(0.5)
    for (_, cut_bass), (_, bass) in zip(found.bass_db, plain.bass_db, strict=True):
        assert isinstance(cut_bass, Measured)
        assert cut_bass.value == pytest.approx(bass.value, abs=0.05)
    assert dict(found.bass_db)[1].value > dict(found.bass_db)[3].value + 5
    for step, same in zip(found.steps, plain.steps, strict=True):
        ratio = step.loud_v_rms.value / same.loud_v_rms.value
        assert 20 * np.log10(ratio) == pytest.approx(0, abs=0.1), step.hz
        assert step.distortion.value == pytest.approx(same.distortion.value, abs=3e-4)
    assert found.apart_db.value == pytest.approx(25, abs=0.1) and found.muted == ()


def test_an_input_that_cuts_nearly_all_is_said_to_leave_noise():
    """What it lets through less than a thousandth of is noise, and not raised to a level."""
    pair = read(1500.0)
    assert not isinstance(dict(pair.bass_db)[1], Measured)


@pytest.mark.parametrize(
    ("spoil", "told"),
    [
        (lambda each: each * 40, "channel 1 is cut off at full scale"),
        (lambda each: each * 10 ** (np.linspace(0, -2, len(each)) / 20), "channel 1: the sweep at"),
        (lambda each: each[: len(each) // 2], "the marks at the end of the track are not heard"),
        (lambda each: each * 1e-4, "turn the recorder's input up"),
    ],
)
def test_a_spoilt_recording_without_the_car_is_refused_by_its_name(spoil, told):
    car, loop = recorded()
    spoilt = Recording(RATE, tuple(np.clip(spoil(each), -1, 1) for each in loop.channels))
    with pytest.raises(RecordingRefusedError, match="the recording without the car: ") as error:
        read_recording(car, SAID, spoilt)
    assert told in str(error.value)


def test_both_recordings_have_the_same_channels():
    car, loop = recorded()
    with pytest.raises(RecordingRefusedError, match="it has 2 channels, that of the pairs 1"):
        read_recording(car, SAID, Recording(RATE, loop.channels * 2))
