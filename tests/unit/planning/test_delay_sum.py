"""Delays at a crossover, and of two sides in the bass."""

from __future__ import annotations

import pytest
from vector_reading import groups

from builder.planning.feeds.delay_sum import delay_sum

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
    found = delay_sum(80, delay)
    assert found.loss_db == pytest.approx(loss, abs=SUMS["bass"]["tolerance"])
    assert found.limit_ms == pytest.approx(3.1, abs=0.05)
    assert found.holds is holds
