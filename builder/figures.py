"""The one place where a number becomes text: messages, pages, drawings and the text of JSON.

Nothing here rounds before comparing. What is printed keeps the side on which the value stood: a
figure beside a limit gets as many digits as it takes to see the difference.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import floor, isclose, isfinite, log10

_SIGNIFICANT = 6
"""Digits of a figure whose decimals nobody chose. Chosen by this project."""

_BOUND_DIGITS = 3
"""Digits of a printed limit: what a hand meter shows of a reading near it, and a needle or a hand
on a gain can hold. Chosen by this project."""

_METER_PLACES = {"V": 4, "A": 2, "mA": 1, "Ω": 1}
"""Decimals that a hand meter of 2000 counts shows in its lowest ranges: 199.9 mV and 199.9 Ω; of a
clamp, 10 mA. Common practice, no source."""

_MOST_TAKEN = 0.1
"""Share of a limit that its rounding may take. Chosen by this project."""

_MOST_PLACES = 12
"""Decimals after which two figures count as one: a float holds no more than noise there."""

_SAME = 1e-9
"""Share up to which two figures are the same: what adding up floats leaves behind."""


def plain_name(value: object) -> str:
    """A cavity or gauge as text: 4, 4.0 and "4" are one name."""
    return str(int(value) if isinstance(value, float) and value.is_integer() else value)


def rounded_down(limit: float, places: int) -> float:
    """Return the figure with so many decimals that is the limit, or next below it.

    >>> rounded_down(12.6491, 2), rounded_down(-12.64, 2)
    (12.64, -12.64)
    """
    grown = limit * 10.0**places
    return floor(grown + abs(grown) * _SAME) / 10.0**places


def at_most(limit: float, unit: str) -> str:
    """Return the most that passes as it is printed: rounded down, so that who reads it passes.

    Args:
        limit: What is compared, unrounded, in the unit.
        unit: As it is printed behind the figure: "V AC" is read as volts are.

    >>> at_most(9.0706, "V AC"), at_most(15.4919, "V"), at_most(4.0133, "Ω")
    ('9.07', '15.4', '4')
    """
    return shown(_downward(limit, unit))


def at_least(limit: float, unit: str) -> str:
    """Return the least that passes as it is printed: rounded up, as `at_most` rounds down.

    >>> at_least(7.4214, "V AC"), at_least(0.308, "A"), at_least(100_000.0, "Ω")
    ('7.43', '0.31', '100000')
    """
    return shown(-_downward(-limit, unit))


def within(low: float, high: float, unit: str) -> tuple[str, str]:
    """Return both ends of a band as `at_least` and `at_most` do, closer where it is narrow.

    >>> within(2.8, 4.0133, "Ω"), within(7.402, 7.408, "V AC")
    (('2.8', '4'), ('7.402', '7.408'))
    """
    for more in range(_MOST_PLACES):
        least, most = -_downward(-low, unit, more), _downward(high, unit, more)
        if least <= most:
            return shown(least, beside=most), shown(most, beside=least)
    return shown(low), shown(high)


def read_as(value: float, unit: str) -> str:
    """Return what is expected as a hand meter shows it: no limit, so rounded to the nearest.

    >>> read_as(8.0640, "V"), read_as(3.2458, "V AC"), read_as(2.2361, "A")
    ('8.06', '3.25', '2.24')
    """
    if not value or not isfinite(value):
        return shown(value)
    digits = _BOUND_DIGITS - 1 - floor(log10(abs(value)) + _SAME)
    return shown(round(value, min(digits, _METER_PLACES.get(unit.partition(" ")[0], digits))))


def _downward(limit: float, unit: str, more: int = 0) -> float:
    """A limit on the step next below it that a meter shows there, or with `more` digits.

    Where that step takes more than `_MOST_TAKEN` of it, the limit keeps its digits.
    """
    if not limit or not isfinite(limit):
        return limit
    digits = _BOUND_DIGITS + more - 1 - floor(log10(abs(limit)) + _SAME)
    if more:
        return rounded_down(limit, digits)
    places = min(digits, _METER_PLACES.get(unit.partition(" ")[0], digits))
    near = rounded_down(limit, places)
    return near if limit - near <= abs(limit) * _MOST_TAKEN else rounded_down(limit, digits)


def shown(
    value: float | None, places: int | None = None, *, beside: float | Iterable[float] = ()
) -> str:
    """Return a number as people read it, with enough digits to tell it from what stands beside.

    Args:
        value: Any number, in whatever unit is printed behind it; None is "unknown".
        places: Decimals; None prints what is there, up to six digits, without trailing zeros.
        beside: The limit, or limits, that the value is compared with, in the same unit. The text
            gets more decimals than `places` when fewer would print the value as the limit, or on
            its other side. To print the limit itself, give it the value.
    """
    if value is None:
        return "unknown"
    if not isfinite(value):
        return f"{value:g}"
    limits = (float(beside),) if isinstance(beside, int | float) else tuple(beside)
    wanted = _places_of(value) if places is None else places
    rivals = [limit for limit in limits if isfinite(limit) and not _same(value, limit)]
    told = _places_that_tell(value, rivals, wanted) if rivals else min(wanted, _MOST_PLACES)
    text = f"{value:.{told}f}"
    if places is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    return text.removeprefix("-") if float(text) == 0 else text


def _places_of(value: float) -> int:
    """Decimals that make six digits of a value."""
    return max(0, _SIGNIFICANT - 1 - floor(log10(abs(value)))) if value else 0


def _same(value: float, limit: float) -> bool:
    return isclose(value, limit, rel_tol=_SAME, abs_tol=_SAME)


def _places_that_tell(value: float, rivals: list[float], wanted: int) -> int:
    return next((p for p in range(wanted, _MOST_PLACES) if _told(value, rivals, p)), _MOST_PLACES)


def _told(value: float, rivals: list[float], places: int) -> bool:
    """Whether a value still stands on its side of each rival when both have these decimals."""
    printed = round(value, places)
    return all(
        printed < round(rival, places) if value < rival else printed > round(rival, places)
        for rival in rivals
    )


def small_current(current_ma: float) -> str:
    """Return a current as people say it: "8 mA", from 1 A on "10 A"."""
    return f"{shown(current_ma)} mA" if current_ma < 1000 else f"{shown(current_ma / 1000)} A"


def share_percent(share: float, limit: float | None = None) -> str:
    """Return a share of one in percent: "37 %", "under 1 %" for less than half of one.

    `limit` is the share it is compared with: 0.504 beside 0.5 is "50.4 %".
    """
    if 0 < share <= 0.005:
        return "under 1 %"
    return f"{shown(100 * share, 0, beside=() if limit is None else 100 * limit)} %"


def span(hours: float) -> str:
    """Return a time as people say it: in days from two days on, below in hours, then minutes.

    Whole days, hours, minutes that have passed: who relies on it is never promised too much.

    >>> span(24 * 15.7)
    '15 days'
    """
    if hours >= 48:
        return f"{rounded_down(hours / 24, 0):.0f} days"
    if hours >= 2:
        return f"{shown(rounded_down(hours, 0 if hours >= 10 else 1))} hours"
    minutes = int(rounded_down(60 * hours, 0))
    return "under a minute" if minutes < 1 else f"{minutes} minute{'' if minutes == 1 else 's'}"
