"""Volts of a recording: by a meter at the pair, by the calibration of a lead, or none at all."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from sound_car import SHORT, Car, Pair, half

from builder.sound.reading import Said, read_recording
from builder.sound.results import Measured, Refused
from builder.sound.tones import Tone
from builder.sound.volts import calibrated_scale, scale_of

LOUD = Tone(200.0, 0.1, (), 1e-5, 48_000)
TWEETER = Pair(volts=6.0, filters=[half("Linkwitz-Riley 4", "high", 4000)])
CAR = Car([Pair(volts=9.0), TWEETER])
AT_THE_PAIR_V = 9.0 * 10**-0.5
"""The tone for the meter is 10 dB below full scale, where the first pair gives 9 V."""


@pytest.fixture(scope="module")
def recording():
    return CAR.recorded()


def read(recording, meter=(None, None), calibrated=None):
    return read_recording(recording, Said(SHORT.choice, meter, 3.0, calibrated), None)


def calibration_of(facts):
    """What a person types of this very recording."""
    return AT_THE_PAIR_V, round(facts.pairs[0].meter_dbfs.value, 1)


@pytest.mark.parametrize(("volts", "most_db"), [(3.0, 0.3), (10.0, 0.15)])
def test_from_3_v_on_a_plain_meter_is_within_0_3_db(volts, most_db):
    assert 0.08 < scale_of(LOUD, volts).plus_minus_db < most_db
    assert scale_of(LOUD, 1.0).plus_minus_db > 0.3


def test_nothing_is_said_in_volts_without_a_meter_and_a_calibration(recording):
    for pair in read(recording).pairs:
        refused = [pair.level_v_rms, pair.noise_v_rms, *(each.loud_v_rms for each in pair.steps)]
        assert all(isinstance(each, Refused) for each in refused)
        assert "no meter was read" in pair.level_v_rms.reason


def test_a_calibration_gives_the_volts_of_pairs_at_which_no_meter_was_read(recording):
    scale = calibrated_scale(*calibration_of(read(recording)))
    assert scale.full_v_rms == pytest.approx(CAR.volts_per_full_scale, rel=0.01)
    pairs = read(recording, calibrated=scale).pairs
    level = pairs[0].level_v_rms
    assert abs(level.value - AT_THE_PAIR_V) < level.plus_minus < 0.15 * AT_THE_PAIR_V
    (loud,) = [s.loud_v_rms for s in pairs[1].steps if (s.step, s.hz) == (3, 1000.0)]
    true_v = 6.0 * abs(TWEETER.through(np.array([1000.0]))[0])
    assert abs(loud.value - true_v) < loud.plus_minus


def test_a_meter_at_the_pair_goes_before_the_calibration(recording):
    scale = calibrated_scale(*calibration_of(read(recording)))
    both = read(recording, (AT_THE_PAIR_V, None), scale)
    alone = read(recording, (AT_THE_PAIR_V, None))
    assert both.pairs[0].level_v_rms == alone.pairs[0].level_v_rms
    assert both.pairs[0].calibration_off_db is None and both.notes == ()
    assert isinstance(both.pairs[1].steps[-1].loud_v_rms, Measured)


@pytest.mark.parametrize(("turned_db", "told"), [(0.5, False), (3.0, True), (-3.0, True)])
def test_an_input_that_was_turned_since_is_told_where_a_meter_was_read(recording, turned_db, told):
    volts, dbfs = calibration_of(read(recording))
    facts = read(recording, (volts, None), calibrated_scale(volts, dbfs - turned_db))
    assert bool(facts.notes) is told
    if told:
        assert facts.pairs[0].calibration_off_db == pytest.approx(-turned_db, abs=0.1)
        assert "the meter counts" in facts.notes[0]


def test_a_meter_says_nothing_of_a_pair_that_plays_no_200_hz(recording):
    """A tweeter: the reading is of noise, and no scale is made of it."""
    pair = read(recording, (None, 0.01)).pairs[1]
    assert isinstance(pair.meter_dbfs, Refused)
    assert "200 Hz is not heard on this pair" in pair.level_v_rms.reason


def test_of_leads_that_nobody_poled_no_polarity_is_told(recording):
    said = Said(SHORT.choice, (None, None), 3.0, poled=False)
    (two,) = read_recording(recording, said, None).between
    (known,) = read_recording(recording, replace(said, poled=True), None).between
    assert isinstance(known.relation.inverted, bool)
    assert "1.5 V cell" in two.relation.inverted.reason and "1.5 V cell" in two.in_step.reason
    assert all(isinstance(each, Refused) for _, each in two.sum_db)
    assert two.relation.late_ms == known.relation.late_ms


@pytest.mark.parametrize(
    ("corner_hz", "lowest_hz"), [(None, 200.0), (0.0, 20.0), (5.0, 20.0), (30.0, 90.0)]
)
def test_no_level_is_told_where_lead_and_recorder_may_have_lowered_it(
    recording, corner_hz, lowest_hz
):
    said = Said(SHORT.choice, (None, None), corner_hz)
    pair = read_recording(recording, said, None).pairs[0]
    told = [hz for hz, each in pair.shape if isinstance(each, Measured)]
    assert lowest_hz <= min(told) < 1.13 * lowest_hz
    assert all(isinstance(bass, Measured) for _, bass in pair.bass_db) is (lowest_hz <= 40)
    assert isinstance(pair.clean_step, Measured)
