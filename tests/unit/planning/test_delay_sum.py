"""Delays at a crossover and in the bass."""

from __future__ import annotations

import pytest
from vector_reading import groups

from builder.planning.feeds.delay_sum import bass_sum, delay_sum, sum_gain_db, summed_v_rms

SUMS = groups("delay_sums")


@pytest.mark.parametrize(("hz", "delay", "phase", "loss", "holds"), SUMS["crossover"]["cases"])
def test_crossover(hz: float, delay: float, phase: float, loss: float, holds: bool) -> None:
    found = delay_sum(hz, delay)
    assert found.phase_deg == pytest.approx(phase, abs=SUMS["crossover"]["tolerance"])
    assert found.loss_db == pytest.approx(loss, abs=0.005)
    assert found.limit_ms * 1000 == pytest.approx(86.2, abs=0.05)
    assert found.holds is holds


@pytest.mark.parametrize(("hz", "delay"), SUMS["crossover"]["refused"])
def test_impossible_delays(hz: float, delay: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        delay_sum(hz, delay)


@pytest.mark.parametrize(("delay", "loss", "holds"), SUMS["bass"]["cases"])
def test_bass(delay: float, loss: float, holds: bool) -> None:
    found = bass_sum(delay)
    assert found.loss_db == pytest.approx(loss, abs=SUMS["bass"]["tolerance"])
    assert found.limit_ms == pytest.approx(3.1, abs=0.05)
    assert found.holds is holds


def test_sums_of_unequal_levels() -> None:
    assert summed_v_rms([(3, 0), (4, 1000 / (4 * 80))], 80) == pytest.approx(5)
    assert summed_v_rms([(3, 0), (4, 0)], 80) == pytest.approx(7)
    assert summed_v_rms([(3, 0), (4, 0)], 80, inverted=1) == pytest.approx(1)
    for bad in ([], [(0, 0)]):
        with pytest.raises(ValueError, match=r"nothing|positive"):
            summed_v_rms(bad, 80)


def test_room_for_a_sum() -> None:
    assert sum_gain_db([8.9, 8.9]) == pytest.approx(6.02, abs=0.005)
    assert sum_gain_db([5]) == 0
    with pytest.raises(ValueError, match="nothing"):
        sum_gain_db([])
