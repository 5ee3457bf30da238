"""The next value that is made or sold, from a least one up: of a series, or of a list of sizes."""

from __future__ import annotations

from collections.abc import Iterable

from builder.units import require_positive


def next_preferred(least: float, series: tuple[float, ...]) -> float:
    """Return the smallest value of a series that is not below `least`, in the same unit.

    Args:
        least: Over 0.
        series: Its values within one decade, from 1 up, as E6 and E12 in the tables.
    Raises:
        ValueError: the least is not positive and finite.
    Source: IEC 60063, preferred values; every decade holds the same.

    >>> next_preferred(8300, (1.0, 2.2, 4.7))
    10000.0
    """
    require_positive("least", least)
    decade = 1.0
    while decade > least:
        decade /= 10
    while decade * 10 <= least:
        decade *= 10
    # 3.3·0.1 is not quite 0.33 in binary fractions: the value meant is the rounded one.
    values = [float(f"{value * decade:.12g}") for value in (*series, 10.0)]
    return next(value for value in values if value >= least * (1 - 1e-12))


def next_size(least: float, sizes: Iterable[float]) -> float | None:
    """Return the smallest of the sizes that is not below `least`, or None when all are.

    Nothing is rounded: a size a hair under the least does not do.

    >>> next_size(54.3, (40, 50, 60, 80))
    60
    """
    return min((size for size in sizes if size >= least), default=None)
