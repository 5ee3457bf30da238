"""How numbers become text: digits beside a limit, small currents, shares, times."""

from __future__ import annotations

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.figures import at_least, at_most, share_percent, shown, small_current, span, within

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


UNITS = st.sampled_from(["V", "V AC", "A", "mA", "Ω", "kΩ", "mΩ", "Hz", "%"])


@given(FIGURES, UNITS)
def test_who_reads_a_printed_limit_passes_and_gives_away_a_tenth_at_most(
    limit: float, unit: str
) -> None:
    most, least = float(at_most(limit, unit)), float(at_least(limit, unit))
    noise = 1e-8 * abs(limit)
    assert most <= limit + noise and least >= limit - noise
    assert limit - most <= 0.1 * abs(limit) + noise and least - limit <= 0.1 * abs(limit) + noise


@given(FIGURES, FIGURES, UNITS)
def test_what_is_printed_of_a_band_is_a_band_within_it(one: float, other: float, unit: str) -> None:
    low, high = sorted((one, other))
    if isclose(low, high, rel_tol=1e-8):
        return
    least, most = (float(text) for text in within(low, high, unit))
    assert low - 1e-8 * abs(low) <= least <= most <= high + 1e-8 * abs(high)


@pytest.mark.parametrize(
    ("limit", "unit", "most", "least"),
    [
        (9.0706, "V AC", "9.07", "9.08"),
        (15.4919, "V", "15.4", "15.5"),
        (8.58, "V", "8.58", "8.58"),
        (3.9600000000000004, "V", "3.96", "3.96"),
        (0.011355, "V DC", "0.0113", "0.0114"),
        (0.001841, "V DC", "0.0018", "0.0019"),
        (-0.05, "V DC", "-0.05", "-0.05"),
        (4.0133, "Ω", "4", "4.1"),
        (0.35, "Ω", "0.35", "0.35"),
        (1.755, "A", "1.75", "1.76"),
        (24.56, "mA", "24.5", "24.6"),
        (0.3855, "mΩ", "0.385", "0.386"),
        (0.0, "V", "0", "0"),
    ],
)
def test_a_limit_has_three_digits_where_a_meter_shows_them(
    limit: float, unit: str, most: str, least: str
) -> None:
    assert (at_most(limit, unit), at_least(limit, unit)) == (most, least)


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
