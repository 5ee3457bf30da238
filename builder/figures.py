"""The one place where a number becomes text: messages, pages, drawings and the text of JSON.

Nothing here rounds before comparing. What is printed keeps the side on which the value stood: a
figure beside a limit gets as many digits as it takes to see the difference.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import floor, isclose, isfinite, log10

_SIGNIFICANT = 6
"""Digits of a figure whose decimals nobody chose. Chosen by this project."""

_MOST_PLACES = 12
"""Decimals after which two figures count as one: a float holds no more than noise there."""

_SAME = 1e-9
"""Share up to which two figures are the same: what adding up floats leaves behind."""


def plain_name(value: object) -> str:
    """A cavity or gauge as text: 4, 4.0 and "4" are one name."""
    return str(int(value) if isinstance(value, float) and value.is_integer() else value)


def rounded_down(limit: float, places: int) -> float:
    """Return a limit that is set by hand as the figure that is printed: never beyond it.

    >>> rounded_down(12.6491, 2)
    12.64
    """
    scale = 10.0**places
    return floor(limit * scale * (1 + _SAME)) / scale


def at_most(limit: float, places: int) -> str:
    """Return a limit that is set by hand, rounded down: who sets what is printed is within it.

    >>> at_most(15.4919, 2)
    '15.49'
    >>> at_most(9.7980, 2)
    '9.79'
    """
    return f"{rounded_down(limit, places):.{places}f}"


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
        return f"{at_most(hours / 24, 0)} days"
    if hours >= 2:
        return f"{shown(rounded_down(hours, 0 if hours >= 10 else 1))} hours"
    minutes = int(rounded_down(60 * hours, 0))
    return "under a minute" if minutes < 1 else f"{minutes} minute{'' if minutes == 1 else 's'}"
