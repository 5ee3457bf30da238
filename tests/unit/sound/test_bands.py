"""Band edges and shape, of responses that are written down instead of recorded."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from builder.sound.bands import own_shape, plays, shape_of
from builder.sound.edges import edges_of
from builder.sound.filters import FILTER_TYPES, crossover
from builder.sound.response import Response
from builder.sound.results import Measured, Refused

HZ = np.arange(0, 24_000, 0.5)
BUTTERWORTH_2, BUTTERWORTH_4 = FILTER_TYPES[1], FILTER_TYPES[3]
RATE_STEP_HZ = 48_000 / 32_768  # between two values of a response that was recorded


def response(corner_hz, error=1e-6, way="high-pass", gain=0.3):
    through = np.zeros(len(HZ), complex)
    through[1:] = gain * crossover(BUTTERWORTH_2, way, HZ[1:], corner_hz, None)
    return Response(HZ, through, np.full(len(HZ), error), 12.0, 21_000.0)


def test_an_edge_is_where_the_filter_is_3_db_down():
    low, high = edges_of(response(80.0), 3.0)
    assert low.value == pytest.approx(80, rel=0.005) and abs(low.value - 80) <= low.plus_minus
    assert isinstance(high, Refused) and "above" in high.reason and "sweep ends" in high.reason
    assert edges_of(response(6000.0, way="low-pass"), 3.0)[1].value == pytest.approx(6000, rel=0.01)


@pytest.mark.parametrize(
    ("corner_hz", "is_told"), [(0.0, True), (26.0, True), (27.0, False), (None, False)]
)
def test_an_edge_is_the_pair_s_own_from_three_times_the_corner_of_the_lead_on(corner_hz, is_told):
    low, _ = edges_of(response(80.0), corner_hz)
    assert isinstance(low, Measured) == is_told


def test_noise_widens_what_an_edge_may_be_wrong_by_until_it_is_refused():
    clear, rough, lost = (edges_of(response(80.0, error), 3.0)[0] for error in (1e-5, 0.008, 0.2))
    assert clear.plus_minus < rough.plus_minus
    assert isinstance(lost, Refused)


def test_the_shape_is_counted_from_the_pair_s_own_level():
    loud, soft = (dict(shape_of(response(500.0, gain=gain))) for gain in (0.3, 0.003))
    for hz in loud:
        if hz > 100:
            assert loud[hz].value == pytest.approx(soft[hz].value, abs=0.01)
    assert loud[1000.0 * 2**3].value == pytest.approx(0, abs=0.3)
    middle_hz = min(loud, key=lambda hz: abs(hz - 250))
    true_db = -10 * np.log10(1 + (500 / middle_hz) ** 4)
    assert loud[middle_hz].value == pytest.approx(true_db, abs=0.15)


def test_what_is_lost_in_noise_is_refused_and_not_written_as_a_level():
    found = dict(shape_of(response(2000.0, error=1e-3)))
    assert isinstance(found[min(found)], Refused)
    assert isinstance(found[max(found)], Measured)


def test_a_sixth_narrower_than_two_steps_of_a_response_is_told_all_the_same():
    """By whole steps alone it would be the level beside it."""
    coarse = np.arange(0, 24_000, RATE_STEP_HZ)
    through = np.zeros(len(coarse), complex)
    through[1:] = crossover(BUTTERWORTH_4, "high-pass", coarse[1:], 45.0, None)
    found = dict(shape_of(Response(coarse, through, np.full(len(coarse), 1e-6), 12.0, 21_000.0)))
    for hz in [hz for hz in found if hz < 100]:
        inside = np.linspace(hz / 2 ** (1 / 12), hz * 2 ** (1 / 12), 500)
        power = np.abs(crossover(BUTTERWORTH_4, "high-pass", inside, 45.0, None)) ** 2
        assert abs(found[hz].value - 10 * np.log10(np.mean(power))) < 0.05, hz


@pytest.mark.parametrize("corner_hz", [2.0, 6.0])
def test_what_lead_and_recorder_may_have_taken_is_among_what_a_level_may_be_wrong_by(corner_hz):
    pair = response(60.0)
    heard = replace(pair, values=pair.values / (1 - 1j * corner_hz / np.maximum(HZ, 0.1)))
    told, true = dict(own_shape(heard, corner_hz)), dict(shape_of(pair))
    near = [hz for hz in told if isinstance(told[hz], Measured) and hz < 200]
    assert min(near) < 3.3 * max(corner_hz, 7)
    for hz in near:
        assert abs(told[hz].value - true[hz].value) <= told[hz].plus_minus, hz
    assert told[min(near)].plus_minus > told[max(near)].plus_minus
    low, _ = edges_of(heard, corner_hz)
    assert abs(low.value - edges_of(pair, 0.0)[0].value) <= low.plus_minus


def test_a_tone_far_down_a_slope_is_not_played():
    found = shape_of(response(2000.0))
    assert plays(found, 4000.0) and not plays(found, 500.0)
