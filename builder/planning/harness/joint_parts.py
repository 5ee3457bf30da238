"""Which crimp barrel and which sleeve a joint takes, from the wires that meet there."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor
from builder.planning.power.wire_gauge import awg_area_mm2
from builder.planning.tables import BARREL_OUTSIDE_MM, SLEEVE_BORES_MM, WIRE_OUTSIDE_MM

_TWO_WIRES = 1 + 2 / pi
"""The tightest ring around two alike wires, as a multiple of the bore that fits one of them."""


class Barrel(NamedTuple):
    """A crimp barrel open at both ends: the copper it holds [mm²], how wide it is outside [mm]."""

    least_mm2: float
    most_mm2: float
    outside_mm: float


class Sleeve(NamedTuple):
    """An adhesive sleeve: its bore as bought and after heating [mm]."""

    before_mm: float
    after_mm: float


def area_mm2(conductor: Conductor | None) -> float | None:
    """Return the copper of a conductor [mm²]; None when its size is not on record.

    >>> area_mm2(Conductor(size_mm2=1.0))
    1.0
    """
    if conductor is None:
        return None
    if conductor.size_awg is not None:
        return awg_area_mm2(conductor.size_awg)
    return conductor.size_mm2


def barrels(defaults: HouseDefaults) -> tuple[Barrel, ...]:
    """Return the barrels of the house, smallest first; one that holds nothing more is left out."""
    limits = (
        defaults.barrel_least_mm2,
        defaults.barrel_small_mm2,
        defaults.barrel_medium_mm2,
        defaults.barrel_large_mm2,
    )
    pairs = zip(limits, limits[1:], BARREL_OUTSIDE_MM, strict=False)
    return tuple(Barrel(*each) for each in pairs if each[0] < each[1])


def barrel_for(areas_mm2: Sequence[float | None], defaults: HouseDefaults) -> Barrel | None:
    """Return the smallest barrel that holds the copper of all wires of a joint.

    None where a size is not on record, or the house has no barrel for so much or so little.
    Source: the classes are a house default; that the areas add up is common practice, no source.

    >>> barrel_for((1.0, 0.82), HouseDefaults())
    Barrel(least_mm2=1.5, most_mm2=2.5, outside_mm=4.2)
    """
    known = [each for each in areas_mm2 if each is not None]
    if len(known) < len(areas_mm2):
        return None
    fitting = (b for b in barrels(defaults) if b.least_mm2 <= sum(known) <= b.most_mm2)
    return next(fitting, None)


def outside_mm(area: float) -> tuple[float, float]:
    """Return how wide a wire is over its insulation, at least and at most [mm].

    Of a size between two of the standard the thin wall of the smaller, the thick wall of the next.
    Beyond the table both grow, under it the thin wall shrinks, with the root of the area.

    >>> outside_mm(0.82)
    (1.9, 2.7)
    """
    sizes = sorted(WIRE_OUTSIDE_MM)
    under = max((size for size in sizes if size <= area + 1e-9), default=sizes[0])
    over = min((size for size in sizes if size >= area - 1e-9), default=sizes[-1])
    grown, shrunk = max(1.0, area / sizes[-1]) ** 0.5, min(1.0, area / sizes[0]) ** 0.5
    return WIRE_OUTSIDE_MM[under][0] * grown * shrunk, WIRE_OUTSIDE_MM[over][1] * grown


def sleeve_for(
    groups_mm2: Sequence[Sequence[float | None]], barrel: Barrel | None
) -> Sleeve | None:
    """Return the smallest sleeve that goes over a joint and closes on its wires.

    Args:
        groups_mm2: The copper of the wires that leave by one end of the sleeve, then of those that
            leave by the other; one group where the other end is empty, and pinched flat.
        barrel: What they are crimped in; None for an end that is closed off.

    Before heating it passes what is widest, wires side by side; after heating it would be no wider
    than what leaves by either end. None where a size is not on record or none fits.

    >>> sleeve_for([(1.0, 0.82)], Barrel(1.5, 2.5, 4.2))
    Sleeve(before_mm=6.0, after_mm=2.0)
    """
    if not groups_mm2 or any(each is None for group in groups_mm2 for each in group):
        return None
    groups = [[outside_mm(each) for each in group if each is not None] for group in groups_mm2]
    widest = max(sum(most for _, most in group) for group in groups)
    widest = max(widest, barrel.outside_mm if barrel else 0.0)
    thin = min(
        min(least for least, _ in group) * (_TWO_WIRES if len(group) > 1 else 1.0)
        for group in groups
    )
    fitting = (Sleeve(*each) for each in SLEEVE_BORES_MM if each[0] >= widest and each[1] <= thin)
    return next(fitting, None)
