"""The conductors a plan chooses from, and the largest fuse before each."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vector_reading import groups

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Cable
from builder.planning.power import tables
from builder.planning.power.conductors import (
    COPPER_CLAD,
    Conductor,
    awg,
    ceiling_source,
    choice_awg,
    choice_mm2,
    conductor_of,
    effective_area_mm2,
    fuse_ceiling_a,
    hot_ohm_per_km,
    house_ceilings_a,
    ohm_per_km,
    square_mm,
)
from builder.planning.power.tables import CHOICE_MM2
from builder.planning.power.wire_gauge import small_craft_ampacity_a

HOUSE = HouseDefaults()
CRAFT = groups("small_craft")
COPPER_MOHM_M = {
    "1/0": 0.322, "2": 0.513, "4": 0.815, "6": 1.296, "8": 2.061, "10": 3.277, "12": 5.211,
    "14": 8.286, "16": 13.17, "18": 20.95, "20": 33.31, "22": 52.96,
}  # fmt: skip


@pytest.mark.parametrize("conductor", choice_awg(), ids=lambda c: c.size_awg)
def test_chosen_sizes_have_the_worked_resistance(conductor: Conductor) -> None:
    assert conductor.size_awg is not None
    worked = COPPER_MOHM_M[conductor.size_awg]
    assert ohm_per_km(conductor, HOUSE) == pytest.approx(worked, rel=1.6e-3)
    assert hot_ohm_per_km(conductor, HOUSE) == pytest.approx(1.0786 * ohm_per_km(conductor, HOUSE))


@pytest.mark.parametrize("size", tables.CHOICE_AWG)
def test_house_ceilings_against_boats(size: str) -> None:
    ceiling = house_ceilings_a(HOUSE)[size]
    assert fuse_ceiling_a(awg(size), HOUSE) == ceiling
    if size in tables.SMALL_CRAFT_AMPACITY_A:
        assert ceiling <= small_craft_ampacity_a(size, 60)


def test_house_ceilings_against_an_engine_space() -> None:
    # Insulation of 105 °C, read. What 60 °C insulation carries there is not published in a source
    # that was read: a supply through an engine bay wants insulation that says what it stands.
    engine = dict(CRAFT["engine_space"]["cases"])
    assert [s for s, a in house_ceilings_a(HOUSE).items() if a > engine.get(s, 1e9)] == []


def test_a_ceiling_says_what_it_is_held_against() -> None:
    assert "195 A: 33 CFR 183.425 table 5 (read)" in ceiling_source(awg("1/0"))
    assert "no published value" in ceiling_source(awg("20"))
    assert "no published value" in ceiling_source(square_mm(16))


@pytest.mark.parametrize(("size", "insulation", "fuse"), CRAFT["fuse_limit"]["cases"])
def test_house_ceilings_are_under_a_boats_fuse_limit(
    size: str, insulation: int, fuse: float
) -> None:
    assert small_craft_ampacity_a(size, insulation) == pytest.approx(fuse / 1.5)
    assert fuse_ceiling_a(awg(size), HOUSE) <= fuse


@pytest.mark.parametrize(
    ("thinner", "metric", "thicker"),
    [("8", 10.0, "6"), ("6", 16.0, "4"), ("4", 25.0, "2"), ("12", 4.0, "10"), ("22", 0.5, "20")],
)
def test_metric_ceilings_lie_between_their_neighbours(
    thinner: str, metric: float, thicker: str
) -> None:
    between = fuse_ceiling_a(square_mm(metric), HOUSE)
    assert fuse_ceiling_a(awg(thinner), HOUSE) < between < fuse_ceiling_a(awg(thicker), HOUSE)


def test_a_metric_size_counts_as_what_its_standard_guarantees() -> None:
    assert effective_area_mm2(square_mm(16)) == pytest.approx(14.249, abs=0.001)
    assert fuse_ceiling_a(square_mm(16), HOUSE) == pytest.approx(73.62, abs=0.01)


def test_ends_of_the_ceiling() -> None:
    assert fuse_ceiling_a(awg("4/0"), HOUSE) == HOUSE.fuse_ceiling_awg_1_0_a
    assert fuse_ceiling_a(awg("24"), HOUSE) == pytest.approx(1.89, abs=0.01)


def test_clad_aluminium_and_unknown_metal() -> None:
    copper, clad = awg("1/0"), awg("1/0", COPPER_CLAD)
    assert fuse_ceiling_a(clad, HOUSE) == pytest.approx(126.75)
    assert ohm_per_km(clad, HOUSE) == pytest.approx(1.6 * ohm_per_km(copper, HOUSE))
    unknown = awg("1/0", "unknown")
    assert ohm_per_km(unknown, HOUSE) == ohm_per_km(clad, HOUSE)
    assert unknown.words == "1/0 AWG of unknown metal"


def test_a_conductor_has_one_size() -> None:
    for sizes in ({}, {"size_awg": "4", "size_mm2": 16.0}):
        with pytest.raises(ValueError, match="one size"):
            Conductor(**sizes)


def cable(**size: object) -> Cable:
    base = {"size_awg": None, "size_mm2": None, **size}
    return Cable(
        id="c", data="invented", name="c", use="power", material="copper", jacket="red",
        pairs=(), singles=(), shield="no", on_reel_m=None, **base,
    )  # fmt: skip


def test_the_conductor_of_a_cable() -> None:
    assert conductor_of(cable(size_awg="4")) == awg("4")
    assert conductor_of(cable(size_mm2=16.0)) == square_mm(16.0)
    assert conductor_of(cable()) is None


@given(st.floats(0.15, 235), st.floats(0.15, 235))
def test_more_copper_never_lowers_a_ceiling(one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    if effective_area_mm2(square_mm(thin)) <= effective_area_mm2(square_mm(thick)):
        assert fuse_ceiling_a(square_mm(thin), HOUSE) <= fuse_ceiling_a(square_mm(thick), HOUSE)


def test_choices_stand_thinnest_first() -> None:
    for choice in (choice_awg(), choice_mm2()):
        ohms = [ohm_per_km(conductor, HOUSE) for conductor in choice]
        ceilings = [fuse_ceiling_a(conductor, HOUSE) for conductor in choice]
        assert ohms == sorted(ohms, reverse=True)
        assert ceilings == sorted(ceilings)


def test_metric_conductors_come_in_the_sizes_that_are_made() -> None:
    """Nominal sizes of IEC 60228, class 5 (memory); thinnest first, none left out. [mm²]"""
    made = (0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0)
    assert made[: len(CHOICE_MM2)] == CHOICE_MM2
