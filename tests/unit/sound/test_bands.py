"""Band edges and shape, of responses that are written down instead of recorded."""

from __future__ import annotations

import numpy as np
import pytest

from builder.sound.bands import edges_of, plays, shape_of
from builder.sound.filters import FILTER_TYPES, crossover
from builder.sound.response import Response
from builder.sound.results import Measured, Refused

HZ = np.arange(0, 24_000, 0.5)
BUTTERWORTH_2 = FILTER_TYPES[1]


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


def test_a_tone_far_down_a_slope_is_not_played():
    found = shape_of(response(2000.0))
    assert plays(found, 4000.0) and not plays(found, 500.0)
