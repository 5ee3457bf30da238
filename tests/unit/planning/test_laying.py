"""Which cable of the shelf an amplified pair lies in: the first that bears its music current."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, cable

from builder.declaring import read
from builder.model.job import Route
from builder.model.parts import Cable
from builder.planning.cables.job_demands import RoutedDemand
from builder.planning.cables.laying import Laying, lay_cables
from builder.planning.car.demands import Demand

WAY = read(Route, {"from": "amp", "to": "plug", "carries": "amplified", "length_m": 2.0,
                   "zones": []})  # fmt: skip
MOST_16_A = HOUSE.fuse_ceiling_awg_16_a


def of_size(size_awg: str | None) -> Cable:
    """One pair of wires of this size, called by it."""
    return replace(cable("2c"), id=f"twin {size_awg}", name=f"twin {size_awg}", size_awg=size_awg)


def laying(music_a: float, *cables: Cable) -> Laying:
    """What one amplified pair of this music current is laid in."""
    pair = Demand("front left", "amp", "plug", "amplified", True, music_a, "front-left")
    return lay_cables([RoutedDemand(pair, WAY)], cables, HOUSE)


def laid(music_a: float, *cables: Cable) -> list[str]:
    """The same as the ids of cables."""
    return [each.cable.id for each in laying(music_a, *cables).jackets]


@pytest.mark.parametrize(
    ("music_a", "taken"),
    [(MOST_16_A, "twin 16"), (MOST_16_A + 0.1, "twin 12")],
    ids=["all that it bears", "more than it bears"],
)
def test_a_cable_too_thin_for_the_music_is_passed_over(music_a: float, taken: str) -> None:
    assert laid(music_a, of_size("16"), of_size("12")) == [taken]


def test_a_cable_whose_size_nobody_recorded_is_passed_over() -> None:
    """It may be as thin as it likes: what bears the current for certain comes first."""
    assert laid(3.0, of_size(None), of_size("16")) == ["twin 16"]


def test_singles_are_no_pair_however_thick() -> None:
    """They bear the current and cannot take it: the thin pair is laid, and the plan says so."""
    singles = replace(cable("3c"), size_awg="10")
    assert laid(3.0, singles, of_size("16")) == ["twin 16"]
    assert laid(MOST_16_A + 0.1, singles, of_size("16")) == ["twin 16"]


def test_where_none_bears_it_the_first_is_taken_and_flagged() -> None:
    found = laying(MOST_16_A + 0.1, of_size("18"), of_size("16"))
    assert [each.cable.id for each in found.jackets] == ["twin 18"]
    assert [flag.kind for flag in found.flags] == ["conductor_overloaded"] * 2  # both wires
    assert not laying(MOST_16_A, of_size("16")).flags
