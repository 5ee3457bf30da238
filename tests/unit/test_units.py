"""How small currents and shares are said."""

from __future__ import annotations

import pytest

from builder.units import share_percent, small_current


@pytest.mark.parametrize(
    ("ma", "said"), [(8, "8 mA"), (999, "999 mA"), (1000, "1 A"), (7500, "7.5 A")]
)
def test_small_currents_change_unit_at_one_ampere(ma: float, said: str) -> None:
    assert small_current(ma) == said


@pytest.mark.parametrize(
    ("share", "said"),
    [(0, "0 %"), (0.0008, "under 1 %"), (0.005, "under 1 %"), (0.006, "1 %"), (1.2, "120 %")],
)
def test_a_share_that_is_not_nothing_is_not_called_nothing(share: float, said: str) -> None:
    assert share_percent(share) == said
