"""Levels by volume step: what the meter makes of them, and up to which step a radio is clean."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from sound_car import SHORT, Car, Pair

from builder.sound.levels import StepLevels, clean_step_of
from builder.sound.reading import Said, read_recording
from builder.sound.results import Measured, Refused

LOUD_V = 8.0 * 2**0.5  # peaks of 0 dBFS at the last step of the car below


@cache
def read(limit_v=1e9, rail_v=1e9, bass_db=(0.0, 0.0, 0.0)):
    car = Car([Pair()], limit_v=limit_v, limit_s=0.4, rail_v=rail_v, bass_db=bass_db)
    said = Said(SHORT.choice, (8.0 * 10**-0.5,), 3.0)
    return read_recording(car.recorded(), said, None).pairs[0]


def of_step(pair, step, hz):
    return next(each for each in pair.steps if (each.step, each.hz) == (step, hz))


def test_a_slow_limiter_passes_the_test_of_distortion_and_not_that_of_compression():
    pair = read(limit_v=LOUD_V / 2)
    last = of_step(pair, 3, 40.0)
    assert last.distortion.value < 0.01
    assert last.compressed_db.value > 2
    assert of_step(pair, 3, 1000.0).compressed_db.value == pytest.approx(0, abs=0.05)
    assert pair.clean_step.value == 2


def test_a_rail_is_found_by_its_distortion():
    pair = read(rail_v=LOUD_V * 10 ** (-1 / 20))
    last = of_step(pair, 3, 1000.0)
    assert last.distortion.value == pytest.approx(0.0463, abs=0.005)  # as the closed form has it
    assert pair.clean_step.value == 2
    assert read().clean_step.value == 3
    orders = {order: told.value for order, told in last.harmonics}
    assert [*orders] == [*range(2, 11)] and max(orders, key=orders.get) == 3
    assert orders[3] == pytest.approx(0.0368, abs=0.004)
    assert np.hypot.reduce([*orders.values()]) == pytest.approx(last.distortion.value)


def test_volts_are_those_of_the_meter_at_each_step():
    for step, volts in ((1, 0.8), (2, 2.53), (3, 8.0)):
        found = of_step(read(), step, 1000.0)
        assert 20 * np.log10(found.loud_v_rms.value / volts) == pytest.approx(0, abs=0.05)
        assert found.loud_v_rms.value / found.quiet_v_rms.value == pytest.approx(10, rel=0.002)


def test_bass_against_the_middle_falls_as_the_volume_rises():
    found = dict(read(bass_db=(6.0, 0.0, -6.0)).bass_db)
    low = 1 / np.sqrt(1 + (40 / 120) ** 2), np.angle(1 / (1 + 1j * 40 / 120))
    for step, db in ((1, 6.0), (2, 0.0), (3, -6.0)):
        turned = 1 + (10 ** (db / 20) - 1) * low[0] * np.exp(1j * low[1])
        middle = 1 + (10 ** (db / 20) - 1) / (1 + 1j * 1000 / 120)
        true_db = 20 * np.log10(abs(turned) / abs(middle))
        assert found[step].value == pytest.approx(true_db, abs=0.06)


NOT_SAID = Refused("for a test")


def step(number, distortion, compressed_db=0.0, hz=1000.0):
    told = [
        NOT_SAID if value is None else Measured(value, 0.0) for value in (distortion, compressed_db)
    ]
    return StepLevels(number, hz, NOT_SAID, NOT_SAID, told[1], told[0])


@pytest.mark.parametrize(
    ("steps", "clean"),
    [
        ([step(1, 0.001), step(2, 0.01), step(3, 0.0101)], 2),  # 1 % itself is clean
        ([step(1, 0.001), step(2, 0.001, 0.5), step(3, 0.001, 0.51)], 2),
        ([step(1, 0.02)], 0),
        ([step(1, 0.001), step(2, 0.02), step(3, 0.001)], 1),  # a later one that is clean is luck
        ([step(1, None), step(2, 0.001)], 2),
        ([step(1, 0.001), step(2, None), step(3, 0.001)], 1),  # of what is not known none is built
        ([step(1, 0.001), step(1, 0.5, hz=8000.0)], 1),  # a tone that it does not play
    ],
)
def test_the_loudest_clean_step_has_only_clean_ones_below_it(steps, clean):
    assert clean_step_of(steps, [40.0, 1000.0]) == Measured(clean, 0.0)


def test_without_a_tone_that_the_pair_plays_there_is_no_clean_step():
    assert isinstance(clean_step_of([step(1, 0.001)], [40.0]), Refused)
    assert isinstance(clean_step_of([step(1, None)], [1000.0]), Refused)
