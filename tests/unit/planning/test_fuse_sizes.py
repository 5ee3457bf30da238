"""Fuses: sizes, opening times, colours, distance from the battery."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vector_reading import groups

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.fuse_sizes import (
    families_with,
    fuse_colour,
    fuse_distance,
    fuse_family,
    held_current_a,
    largest_fuse_a,
    openings,
    smallest_fuse_a,
)
from builder.planning.power.tables import FUSE_FAMILIES, STANDARD_FUSES_A

FUSES = groups("fuse_openings")
CRAFT = groups("small_craft")
HOUSE = HouseDefaults()


@pytest.mark.parametrize(("family", "percent", "least", "most"), FUSES["openings"]["cases"])
def test_opening_limits(family: str, percent: int, least: float, most: float) -> None:
    assert fuse_family(family).opens_s[percent] == (least, most)


@pytest.mark.parametrize(("family", "rating", "holds", "at", "within"), FUSES["sentences"]["cases"])
def test_opening_sentences(
    family: str, rating: float, holds: float, at: float, within: float
) -> None:
    assert held_current_a(family, rating) == holds
    said = [opening.words for opening in openings(family, rating)]
    assert f"opens at {at:g} A within {within:g} s" in said


@pytest.mark.parametrize(("family", "rating"), FUSES["sentences"]["refused"])
def test_fuses_nobody_makes(family: str, rating: float) -> None:
    with pytest.raises(ValueError, match=r"fuse family|is made for"):
        openings(family, rating)


@pytest.mark.parametrize(("family", "rating", "colour"), FUSES["colours"]["cases"])
def test_colours_go_by_family(family: str, rating: float, colour: str | None) -> None:
    assert fuse_colour(family, rating) == colour


@pytest.mark.parametrize(("floor", "ceiling", "fuse"), FUSES["smallest"]["cases"])
def test_smallest_standard_fuse(floor: float, ceiling: float | None, fuse: float | None) -> None:
    assert smallest_fuse_a(floor, ceiling) == fuse


@pytest.mark.parametrize(("floor", "ceiling"), FUSES["smallest"]["refused"])
def test_impossible_fuses(floor: float, ceiling: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        smallest_fuse_a(floor, ceiling)


def test_every_standard_fuse_can_be_bought() -> None:
    for rating in STANDARD_FUSES_A:
        assert families_with(rating), rating
    assert families_with(60) == ("maxi", "bolt_down")


def test_every_family_is_honest_about_itself() -> None:
    for family in FUSE_FAMILIES.values():
        assert family.source and family.opens_status and family.ratings_status
        assert list(family.ratings_a) == sorted(family.ratings_a)
        assert set(family.colours) <= set(family.ratings_a)
        times = [family.opens_s[percent][1] for percent in sorted(family.opens_s)]
        assert times == sorted(times, reverse=True)


def test_largest_fuse_under_a_ceiling() -> None:
    assert largest_fuse_a(162.5) == 150
    assert largest_fuse_a(0.5) is None


@pytest.mark.parametrize(("sheathed", "terminal", "inches"), CRAFT["fuse_distance_in"]["cases"])
def test_published_distances(sheathed: bool, terminal: bool, inches: float) -> None:
    at = fuse_distance(inches * 0.0254, HOUSE, sheathed=sheathed, at_battery_terminal=terminal)
    beyond = fuse_distance(
        inches * 0.0254 + 0.001, HOUSE, sheathed=sheathed, at_battery_terminal=terminal
    )
    assert at.within_published and not beyond.within_published


def test_house_distance() -> None:
    assert fuse_distance(0.45, HOUSE).within_house
    assert not fuse_distance(1.2, HOUSE).within_house
    assert fuse_distance(0, HOUSE).within_published
    with pytest.raises(ValueError, match="positive"):
        fuse_distance(CRAFT["fuse_distance_in"]["refused"][0], HOUSE)


@given(st.floats(0.01, 300), st.floats(0.01, 300))
def test_a_fuse_lies_between_floor_and_ceiling(floor: float, ceiling: float) -> None:
    fuse = smallest_fuse_a(floor, ceiling)
    if fuse is None:
        assert not [a for a in STANDARD_FUSES_A if floor <= a <= ceiling]
    else:
        assert floor <= fuse <= ceiling
