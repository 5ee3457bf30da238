"""Fuses: sizes, shapes, distance from the battery."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vector_reading import groups

from builder.model.house_defaults import HouseDefaults
from builder.model.words import FuseShape
from builder.planning.power.fuse_sizes import (
    families_with,
    fuse_distance,
    fuse_family,
    smallest_fuse_a,
)
from builder.planning.power.tables import FUSE_FAMILIES, STANDARD_FUSES_A

FUSES = groups("fuse_sizes")
CRAFT = groups("small_craft")
HOUSE = HouseDefaults()


def test_fuses_nobody_makes() -> None:
    with pytest.raises(ValueError, match="fuse family"):
        fuse_family("glass")


@pytest.mark.parametrize(("floor", "fuse"), FUSES["smallest"]["cases"])
def test_smallest_standard_fuse(floor: float, fuse: float | None) -> None:
    assert smallest_fuse_a(floor) == fuse


@pytest.mark.parametrize("floor", FUSES["smallest"]["refused"])
def test_impossible_fuses(floor: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        smallest_fuse_a(floor)


def test_every_standard_fuse_can_be_bought() -> None:
    for rating in STANDARD_FUSES_A:
        assert families_with(rating), rating
    assert families_with(60) == ("maxi", "bolt_down")


def test_every_family_is_honest_about_itself() -> None:
    for family in FUSE_FAMILIES.values():
        assert family.source and family.ratings_status
        assert list(family.ratings_a) == sorted(family.ratings_a)


@pytest.mark.parametrize(("shape", "ratings_a"), FUSES["made"]["cases"])
def test_each_shape_is_made_in_the_ratings_of_its_standard(
    shape: FuseShape, ratings_a: list[float]
) -> None:
    assert list(fuse_family(shape).ratings_a) == ratings_a
    assert len(FUSES["made"]["cases"]) == len(FUSE_FAMILIES)


@pytest.mark.parametrize("rating_a", FUSES["asked_for"]["cases"][0])
def test_a_rating_that_a_plan_asks_for_is_its_own_smallest_fuse(rating_a: float) -> None:
    """A hair more than it needs the next one, so that no size is lost or shifted unseen."""
    (ratings_a,) = FUSES["asked_for"]["cases"]
    later = [each for each in ratings_a if each > rating_a]
    assert smallest_fuse_a(rating_a) == rating_a
    assert smallest_fuse_a(rating_a + 0.01) == (later[0] if later else None)


@pytest.mark.parametrize(("inches",), CRAFT["fuse_distance_in"]["cases"])
def test_published_distance(inches: float) -> None:
    assert fuse_distance(1.2, HOUSE).published_limit_m == inches * 0.0254


def test_house_distance() -> None:
    assert fuse_distance(0.45, HOUSE).within_house
    assert not fuse_distance(1.2, HOUSE).within_house
    assert fuse_distance(0, HOUSE).within_house
    with pytest.raises(ValueError, match="positive"):
        fuse_distance(CRAFT["fuse_distance_in"]["refused"][0], HOUSE)


@given(st.floats(0.01, 300))
def test_no_standard_fuse_lies_between_the_floor_and_the_fuse(floor: float) -> None:
    fuse = smallest_fuse_a(floor)
    assert [a for a in STANDARD_FUSES_A if floor <= a < (fuse or 300)] == []
    assert fuse is None or fuse >= floor
