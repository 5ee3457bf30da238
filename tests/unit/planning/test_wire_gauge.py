"""Wire sizes against published tables; where table and law disagree the test says which stands."""

from __future__ import annotations

import pytest
from each_case import each
from vector_reading import CIRCULAR_MIL_MM2, POWER_VECTORS, groups

from builder.model.house_defaults import HouseDefaults
from builder.planning.power import tables
from builder.planning.power.wire_gauge import (
    awg_area_mm2,
    awg_diameter_mm,
    awg_number,
    awg_ohm_per_km,
    copper_area_mm2,
    copper_ohm_per_km,
    metric_ohm_per_km,
    small_craft_ampacity_a,
    temperature_factor,
)

WIRE = groups("wire_gauge")
METRIC = groups("metric_conductors")
CRAFT = groups("small_craft")
KFT_KM = 0.3048
HOUSE = HouseDefaults()


@each("name", POWER_VECTORS)
def test_every_vector_names_its_source_and_status(name: str) -> None:
    words = ("read", "second-hand", "memory", "worked by hand")
    for group in groups(name).values():
        assert group["source"]["standard"]
        assert any(word in group["status"] for word in words), group["name"]


def half_a_digit(printed: str) -> float:
    decimals = len(printed.partition(".")[2])
    return 0.5 * 10.0**-decimals


@each("size, inches, mils", WIRE["awg_diameter_in"]["cases"])
def test_diameters(size: str, inches: float, mils: float) -> None:
    tolerance = WIRE["awg_diameter_in"]["tolerance"]
    assert awg_diameter_mm(size) / 25.4 == pytest.approx(inches, rel=tolerance)
    assert awg_area_mm2(size) / CIRCULAR_MIL_MM2 == pytest.approx(mils, rel=2 * tolerance)


@each("size", WIRE["awg_diameter_in"]["refused"])
def test_sizes_that_do_not_exist(size: str) -> None:
    with pytest.raises(ValueError, match="no AWG size"):
        awg_number(size)


@each("size, printed", WIRE["awg_ohm_per_kft"]["cases"])
def test_resistance_of_wire_tables(size: str, printed: str) -> None:
    published = float(printed)
    allowed = half_a_digit(printed) + WIRE["awg_ohm_per_kft"]["tolerance"] * published
    assert awg_ohm_per_km(size) * KFT_KM == pytest.approx(published, abs=allowed)


@each("size, area, ohm", WIRE["awg_ohm_per_km"]["cases"])
def test_area_and_resistance(size: str, area: float, ohm: float) -> None:
    assert awg_area_mm2(size) == pytest.approx(area, rel=2e-4)
    assert awg_ohm_per_km(size) == pytest.approx(ohm, rel=1e-3)
    assert copper_area_mm2(awg_ohm_per_km(size)) == pytest.approx(area, rel=2e-4)


def test_constants() -> None:
    published = {what: (value, rel) for what, value, rel in WIRE["copper_constants"]["cases"]}
    value, rel = published["ohm_mm2_per_m"]
    assert pytest.approx(value, rel=rel) == tables.COPPER_OHM_MM2_PER_M
    value, rel = published["ohm_cmil_per_ft"]
    mils = tables.COPPER_OHM_MM2_PER_M * 0.3048 / CIRCULAR_MIL_MM2
    assert mils == pytest.approx(value, rel=rel)
    value, rel = published["per_kelvin"]
    assert pytest.approx(value, rel=rel) == tables.COPPER_PER_KELVIN


def test_clad_aluminium_is_taken_worse_than_its_standard() -> None:
    published = {what: value for what, value, _ in WIRE["copper_constants"]["cases"]}
    for name in ("cca_10_percent_iacs", "cca_15_percent_iacs"):
        ratio = 100 / published[name]
        assert ratio < HOUSE.cca_resistance_factor < 1.05 * ratio
    # Heat goes with I²R: the same heat allows 1/√1.6 = 0.79 of the current. The house asks less.
    assert HOUSE.cca_fuse_factor < HOUSE.cca_resistance_factor**-0.5


@each("size, strands, published", WIRE["nec_75_c_ohm_per_kft"]["cases"])
def test_hot_solid_and_stranded(size: str, strands: int, published: float) -> None:
    group = WIRE["nec_75_c_ohm_per_kft"]
    found = awg_ohm_per_km(size) * temperature_factor(75) * KFT_KM
    # A plan counts with the metal area alone; strands are longer than the wire they make.
    lay, tolerance = (1, "tolerance_solid") if strands == 1 else (1.02, "tolerance_stranded")
    assert found * lay == pytest.approx(published, rel=group[tolerance])


@each("celsius, kt", WIRE["temperature_factor"]["cases"])
def test_temperature_factor_against_the_simplified_one(celsius: float, kt: float) -> None:
    # Kt is 250/(230 + t), rounded; the printed table and the coefficient part by 0.3 % at most.
    assert temperature_factor(celsius) * kt == pytest.approx(
        1, abs=WIRE["temperature_factor"]["tolerance"]
    )


def test_temperature_factor_at_the_house_temperature() -> None:
    assert temperature_factor(HOUSE.hot_conductor_c) == pytest.approx(1.0786)
    for celsius in WIRE["temperature_factor"]["refused"]:
        with pytest.raises(ValueError, match="no conductor"):
            temperature_factor(celsius)


@each("celsius", [celsius for (celsius,) in WIRE["length_shortening"]["cases"]])
def test_temperature_shortens_the_length(celsius: float) -> None:
    shorter = 254.5 / (234.5 + celsius)
    assert 1 / temperature_factor(celsius) == pytest.approx(
        shorter, rel=WIRE["length_shortening"]["tolerance"]
    )


@each("size, strands, strand, mils", WIRE["strand_builds"]["cases"])
def test_stranded_builds_hold_less_than_their_number(
    size: str, strands: int, strand: str, mils: float
) -> None:
    area = strands * awg_area_mm2(strand)
    assert area / CIRCULAR_MIL_MM2 == pytest.approx(mils, rel=WIRE["strand_builds"]["tolerance"])
    assert area < awg_area_mm2(size)


@each("size, ohm", [*METRIC["flexible"]["cases"], *METRIC["flexible_small"]["cases"]])
def test_metric_limits(size: float, ohm: float) -> None:
    assert metric_ohm_per_km(size) == ohm
    # The name is not the area: the limit is always above what that area of copper would have.
    assert ohm > copper_ohm_per_km(size)


@each("size", METRIC["flexible"]["refused"])
def test_metric_sizes_outside_the_standard(size: float) -> None:
    with pytest.raises(ValueError, match="outside"):
        metric_ohm_per_km(size)


@each("size, ohm", METRIC["road_vehicle"]["cases"])
def test_road_vehicle_cable_lies_near_the_limits(size: float, ohm: float) -> None:
    if size >= 0.14:
        # From memory, so a band: a plan's figure is not far below and mostly above it.
        assert 0.95 * ohm <= metric_ohm_per_km(size) <= 1.2 * ohm
    if size >= 0.5:
        assert 1.05 <= ohm / copper_ohm_per_km(size) <= 1.11


@pytest.mark.parametrize("size", [0.35, 2.0, 3.0, 12.0])
def test_sizes_between_lie_between(size: float) -> None:
    smaller = max(known for known in tables.FLEXIBLE_MAX_OHM_PER_KM if known < size)
    larger = min(known for known in tables.FLEXIBLE_MAX_OHM_PER_KM if known > size)
    assert metric_ohm_per_km(larger) < metric_ohm_per_km(size) < metric_ohm_per_km(smaller)
    # The worse of both neighbours: no less of ohms times size than either.
    product = metric_ohm_per_km(size) * size
    assert product >= max(metric_ohm_per_km(near) * near for near in (smaller, larger)) - 1e-9


@each("size, at_60, at_105", CRAFT["ampacity"]["cases"])
def test_small_craft_table(size: str, at_60: float, at_105: float) -> None:
    assert small_craft_ampacity_a(size, 60) == at_60
    assert small_craft_ampacity_a(size, 105) == at_105
    assert 1.45 <= at_105 / at_60 <= 2.0


@each("size, engine_space", CRAFT["engine_space"]["cases"])
def test_engine_space_is_0_85(size: str, engine_space: float) -> None:
    assert 0.85 * small_craft_ampacity_a(size, 105) == pytest.approx(
        engine_space, abs=CRAFT["engine_space"]["tolerance"]
    )


@each("size, insulation", CRAFT["ampacity"]["refused"])
def test_small_craft_table_ends(size: str, insulation: int) -> None:
    with pytest.raises(ValueError, match="no ampacity"):
        small_craft_ampacity_a(size, insulation)


@pytest.mark.parametrize("bad", [0, -1, float("nan"), float("inf")])
def test_impossible_figures_are_refused(bad: float) -> None:
    for function in (copper_ohm_per_km, copper_area_mm2):
        with pytest.raises(ValueError, match="positive"):
            function(bad)
