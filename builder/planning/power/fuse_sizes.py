"""Which fuse: the smallest standard size, in which shape, where it must stand."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.words import FuseShape
from builder.planning.power.tables import (
    FUSE_FAMILIES,
    SMALL_CRAFT_FUSE_DISTANCE_M,
    STANDARD_FUSES_A,
    FuseFamily,
)
from builder.planning.preferred import next_size
from builder.units import Amperes, require_positive


def smallest_fuse_a(floor_a: Amperes) -> Amperes | None:
    """Return the smallest standard fuse from `floor_a` up, or None when none is so large. [A]

    Where the wire does not stand that fuse it must be thicker, never the fuse smaller.

    Raises:
        ValueError: the floor is not positive and finite.

    >>> smallest_fuse_a(54.3)
    60.0
    """
    return next_size(require_positive("floor_a", floor_a), STANDARD_FUSES_A)


def fuse_family(name: FuseShape) -> FuseFamily:
    """Return a family by its key in the tables.

    Raises:
        ValueError: there is no such family.
    """
    if name not in FUSE_FAMILIES:
        raise ValueError(f"no fuse family {name!r}; known: {', '.join(FUSE_FAMILIES)}")
    return FUSE_FAMILIES[name]


def families_with(rating_a: Amperes) -> tuple[FuseShape, ...]:
    """Return the keys of the families that are made in this rating, smallest shape first.

    >>> families_with(60.0)
    ('maxi', 'bolt_down')
    """
    return tuple(key for key, family in FUSE_FAMILIES.items() if rating_a in family.ratings_a)


def shape_for(rating_a: Amperes, wanted: FuseShape) -> FuseShape:
    """Return the shape to buy: the one that is wanted, else the smallest made in this rating. [A]

    >>> shape_for(60.0, "maxi"), shape_for(150.0, "maxi")
    ('maxi', 'bolt_down')
    """
    made = families_with(rating_a)
    return wanted if wanted in made or not made else made[0]


@dataclass(frozen=True, slots=True)
class FuseDistance:
    """How far a main fuse stands from the battery, by the house and by a published rule."""

    distance_m: float
    house_limit_m: float
    published_limit_m: float
    published_source: str
    within_house: bool


def fuse_distance(distance_m: float, defaults: HouseDefaults) -> FuseDistance:
    """Return the distance along the wire against both limits. 0 is a fuse on the post. [m]

    The house limit decides a plan; the published one is for boats and shown beside it.

    Raises:
        ValueError: the distance is negative or not finite.
    Source: 33 CFR 183.455(b), a wire without a sheath.

    >>> fuse_distance(1.2, HouseDefaults()).within_house
    False
    """
    if distance_m != 0:
        require_positive("distance_m", distance_m)
    house, published = defaults.fuse_distance_m, SMALL_CRAFT_FUSE_DISTANCE_M
    return FuseDistance(distance_m, house, published, "33 CFR 183.455(b)", distance_m <= house)
