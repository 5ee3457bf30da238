"""How numbers become text: digits beside a limit, small currents, shares, times."""

from __future__ import annotations

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.figures import share_percent, shown, small_current, span

FIGURES = st.floats(-1e6, 1e6, allow_nan=False).filter(lambda value: abs(value) > 1e-4)


@pytest.mark.parametrize(
    ("value", "places", "limit", "said"),
    [
        (2.9988, 1, 3, "2.999"),
        (2.9988, None, 3, "2.9988"),
        (0.50012, 3, 0.5, "0.5001"),
        (0.5, 3, 0.5, "0.500"),
        (0.1 + 0.2, 2, 0.3, "0.30"),
        (50.4, 0, 50, "50.4"),
        (-0.04, 1, 0, "-0.04"),
        (8.94427, 2, 20, "8.94"),
    ],
)
def test_a_figure_beside_its_limit_shows_the_difference(
    value: float, places: int | None, limit: float, said: str
) -> None:
    assert shown(value, places, beside=limit) == said


@pytest.mark.parametrize(
    ("value", "said"),
    [(3.0, "3"), (0.546, "0.546"), (1234567.0, "1234567"), (0.000047, "0.000047"), (-0.0, "0"),
     (float("inf"), "inf")],
)  # fmt: skip
def test_a_figure_without_chosen_decimals_has_no_zeros_and_no_exponent(
    value: float, said: str
) -> None:
    assert shown(value) == said


@given(FIGURES, FIGURES, st.sampled_from([None, 0, 1, 2, 3]))
def test_two_figures_that_differ_are_printed_in_their_order(
    value: float, limit: float, places: int | None
) -> None:
    if isclose(value, limit, rel_tol=1e-8, abs_tol=1e-8):
        return
    printed = float(shown(value, places, beside=limit)), float(shown(limit, places, beside=value))
    assert (printed[0] < printed[1]) == (value < limit)
    assert printed[0] != printed[1]


@given(FIGURES, st.sampled_from([0.0005, 0.002, 0.04]))
def test_a_figure_near_its_limit_is_never_printed_as_the_limit(limit: float, near: float) -> None:
    value = limit * (1 + near)
    assert float(shown(value, 1, beside=limit)) != float(shown(limit))


@pytest.mark.parametrize(
    ("hours", "said"),
    [
        (0.004, "under a minute"),
        (0.0166, "under a minute"),
        (0.02, "1 minute"),
        (0.75, "45 minutes"),
        (1.9, "114 minutes"),
        (2.46, "2.4 hours"),
        (3, "3 hours"),
        (24, "24 hours"),
        (47.9, "47 hours"),
        (48, "2 days"),
        (24 * 38.9, "38 days"),
    ],
)
def test_times_below_two_days_are_hours_or_minutes(hours: float, said: str) -> None:
    assert span(hours) == said


@given(st.floats(0, 1e5))
def test_a_time_is_never_one_days_or_nought_of_anything(hours: float) -> None:
    figure, _, unit = span(hours).partition(" ")
    assert figure == "under" or float(figure) > 1 or unit in ("minute", "hour", "day")


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


def test_a_share_over_its_limit_is_not_printed_as_the_limit() -> None:
    assert share_percent(0.504, 0.5) == "50.4 %"
