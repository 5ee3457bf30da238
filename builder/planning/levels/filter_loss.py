"""What a filter takes from a tone: the two shapes that amplifiers have."""

from __future__ import annotations

from dataclasses import dataclass

from builder.units import Hertz, require_positive

DB_AN_ORDER = 6
"""Decibels an octave of each order of a filter, as it is called: 6.02 at the limit."""


@dataclass(frozen=True, slots=True)
class FilterSet:
    """The filters of one channel. A corner that is None is off."""

    high_pass_hz: Hertz | None
    low_pass_hz: Hertz | None
    subsonic_hz: Hertz | None
    slope_db_per_octave: int


def passed(filters: FilterSet, hz: Hertz) -> tuple[float, float]:
    """Return the least and the most share of a tone's volts that the filters pass.

    Which shape a control has is seldom printed: Linkwitz-Riley is 6 dB down at its corner,
    Butterworth 3 dB; the one gives the least, the other the most.

    Raises:
        ValueError: a frequency is not positive and finite.

    >>> least, most = passed(FilterSet(None, 80.0, None, 24), 80.0)
    >>> round(least, 3), round(most, 3)
    (0.5, 0.707)
    """
    least = most = 1.0
    for corner, above in (
        (filters.high_pass_hz, True), (filters.subsonic_hz, True), (filters.low_pass_hz, False),
    ):  # fmt: skip
        if corner is not None:
            times = corner / hz if above else hz / corner
            most *= butterworth(times, filters.slope_db_per_octave)
            least *= linkwitz_riley(times, filters.slope_db_per_octave)
    return least, most


def butterworth(times: float, slope_db_per_octave: int) -> float:
    """Return |H| of a Butterworth filter `times` beyond its corner, 1/√(1+x^2n).

    Raises:
        ValueError: `times` is not positive and finite.
    Source: Butterworth 1930, textbook law (memory); held against scipy.signal in the tests.

    >>> round(butterworth(2.0, 12), 4)
    0.2425
    """
    order = slope_db_per_octave / DB_AN_ORDER
    return float(1 / (1 + require_positive("times", times) ** (2 * order)) ** 0.5)


def linkwitz_riley(times: float, slope_db_per_octave: int) -> float:
    """Return |H| of two Butterworth filters of half the order in a row, 1/(1+x^n).

    Raises:
        ValueError: `times` is not positive and finite.
    Source: Linkwitz 1976, textbook law (memory).

    >>> linkwitz_riley(1.0, 24)
    0.5
    """
    return float(1 / (1 + require_positive("times", times) ** (slope_db_per_octave / DB_AN_ORDER)))
