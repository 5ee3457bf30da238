"""Worked drops of handbooks, and what a path of ours loses."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vector_reading import CIRCULAR_MIL_MM2, groups

from builder.model.house_defaults import HouseDefaults
from builder.planning.power import voltage_drop
from builder.planning.power.conductors import Conductor, awg, choice_awg, ohm_per_km
from builder.planning.power.supply import SupplyLoad, branch_demand, trunk_demand
from builder.planning.power.supply_runs import judge_run
from builder.planning.power.voltage_drop import (
    SupplyPath,
    path_drop_v,
    path_ohm,
)
from builder.planning.power.wire_gauge import (
    awg_area_mm2,
    copper_area_mm2,
    copper_ohm_per_km,
    temperature_factor,
)

DROP = groups("voltage_drop")
JOBS = groups("supply_scenarios")
FOOT = 0.3048
HOUSE = HouseDefaults()
FeetDrop = Callable[[float, float, float], float]
PRINTED_SIZES = (
    "18", "16", "14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0",
)  # fmt: skip


@pytest.fixture
def feet_drop(monkeypatch: pytest.MonkeyPatch) -> FeetDrop:
    """What a plan loses on a conductor whose resistance a handbook states, one way."""

    def drop_v(ohm_per_ft: float, length_ft: float, current_a: float) -> float:
        of_the_book = ohm_per_ft / FOOT * 1000
        monkeypatch.setattr(voltage_drop, "hot_ohm_per_km", lambda *_: of_the_book)
        return path_drop_v(
            SupplyPath(length_ft * FOOT, 0, awg("10"), joints=False), current_a, HOUSE
        )

    return drop_v


@pytest.mark.parametrize(("ohm", "feet", "amps", "volts"), DROP["one_way"]["cases"])
def test_handbook_drops(
    feet_drop: FeetDrop, ohm: float, feet: float, amps: float, volts: float
) -> None:
    assert feet_drop(ohm, feet, amps) == pytest.approx(volts, rel=DROP["one_way"]["tolerance"])


@pytest.mark.parametrize(("ohm", "feet", "amps", "printed", "volts"), DROP["misprints"]["cases"])
def test_misprints_are_not_ours(
    feet_drop: FeetDrop, ohm: float, feet: float, amps: float, printed: float, volts: float
) -> None:
    # Resistance, length and current stand in the same row; their product is not what is printed.
    found = feet_drop(ohm, feet, amps)
    assert found == pytest.approx(volts, rel=DROP["misprints"]["tolerance"])
    assert abs(found - printed) > 0.04


@pytest.mark.parametrize("amps", DROP["one_way"]["refused_amps"])
def test_impossible_currents(amps: float) -> None:
    with pytest.raises(ValueError, match="positive"):
        path_drop_v(SupplyPath(1, 0, awg("10")), amps, HOUSE)


def mils_for_drop(ohm_cmil_ft: float, amps: float, feet: float, volts: float) -> float:
    """The area that loses so much, by the resistivity that the handbook takes for copper."""
    ours = copper_area_mm2(volts / amps / (feet * FOOT) * 1000) / CIRCULAR_MIL_MM2
    copper = copper_ohm_per_km(CIRCULAR_MIL_MM2) / 1000 * FOOT
    return ours * ohm_cmil_ft / copper


def mils(size_awg: str) -> float:
    return awg_area_mm2(size_awg) / CIRCULAR_MIL_MM2


@pytest.mark.parametrize(
    ("k", "amps", "feet", "volts", "area", "enough", "thin"), DROP["area_circular_mils"]["cases"]
)
def test_area_for_a_drop(
    k: float, amps: float, feet: float, volts: float, area: float, enough: str, thin: str
) -> None:
    found = mils_for_drop(k, amps, feet, volts)
    assert found == pytest.approx(area, rel=DROP["area_circular_mils"]["tolerance"])
    assert mils(thin) < found <= mils(enough)


@pytest.mark.parametrize(
    ("source", "load", "wire", "celsius", "load_v", "wire_v"), DROP["warm_wires"]["cases"]
)
def test_warm_wires(
    source: float, load: float, wire: float, celsius: float, load_v: float, wire_v: float
) -> None:
    hot = wire * temperature_factor(celsius)
    current = source / (load + 2 * hot)
    assert current * hot == pytest.approx(wire_v, abs=DROP["warm_wires"]["tolerance"])
    left = source - 2 * current * hot
    assert left == pytest.approx(load_v, abs=DROP["warm_wires"]["tolerance"])


@pytest.mark.parametrize(("feet", "amps", "volts", "size"), DROP["aircraft_choice"]["cases"])
def test_aircraft_choice(feet: float, amps: float, volts: float, size: str) -> None:
    def loses(gauge: str, celsius: float) -> float:
        at = HouseDefaults(hot_conductor_c=celsius)
        return path_drop_v(SupplyPath(feet * FOOT, 0, awg(gauge), joints=False), amps, at)

    hot_c = HOUSE.hot_conductor_c
    sizes = ("12", "10", "8", "6")
    assert next(gauge for gauge in sizes if loses(gauge, hot_c) <= volts) == size
    assert next(gauge for gauge in sizes if loses(gauge, 20) <= volts) == "10"


@pytest.mark.parametrize(("k", "feet", "amps", "volts", "size"), DROP["marine_choice"]["cases"])
def test_marine_choice(k: float, feet: float, amps: float, volts: float, size: str) -> None:
    needed = mils_for_drop(k, amps, feet, volts)
    assert next(gauge for gauge in PRINTED_SIZES if mils(gauge) >= needed) == size


def test_marine_table_within_one_size() -> None:
    group = DROP["marine_three_percent"]
    heads = group["columns"][1:]
    away = []
    for feet, *printed in group["cases"]:
        for amps, size in zip(heads, printed, strict=True):
            needed = mils_for_drop(10.75, amps, feet, 0.03 * 12)
            ours = next(gauge for gauge in PRINTED_SIZES if mils(gauge) >= needed)
            away.append(abs(PRINTED_SIZES.index(ours) - PRINTED_SIZES.index(size)))
    assert len(away) == 104
    assert max(away) <= group["tolerance_sizes"]
    assert away.count(0) >= group["exact_at_least"]


@pytest.mark.parametrize(("size", "length", "joints", "mohm"), JOBS["conductor_milliohm"]["cases"])
def test_paths_of_worked_jobs(size: str, length: float, joints: bool, mohm: float) -> None:
    path = SupplyPath(length - 0.4, 0.4, awg(size), joints=joints)
    assert path_ohm(path, HOUSE) * 1000 == pytest.approx(mohm, abs=0.005)


def test_joints_count_once_a_path() -> None:
    trunk = SupplyPath(4.2, 0, awg("1/0"))
    branch = SupplyPath(0.5, 0.3, awg("2"), joints=False)
    load = SupplyLoad("amplifier", 100.0, 100, 0.5, 0.3)
    before = judge_run(trunk_demand((load,), 4.2, 0), awg("1/0"), HOUSE).run.cumulative_drop_v
    end = judge_run(branch_demand(load), awg("2"), HOUSE, before_v=before).run.cumulative_drop_v
    wires = path_ohm(trunk, HOUSE) + path_ohm(branch, HOUSE)
    assert end == pytest.approx(100 * wires)
    assert before == pytest.approx(path_drop_v(trunk, 100, HOUSE))
    bare = SupplyPath(4.2, 0, awg("1/0"), joints=False)
    assert path_ohm(trunk, HOUSE) - path_ohm(bare, HOUSE) == pytest.approx(0.0015)


def test_a_return_of_another_size() -> None:
    thick = SupplyPath(4, 0.5, awg("4"))
    mixed = SupplyPath(4, 0.5, awg("4"), awg("8"))
    more = 0.5 * (ohm_per_km(awg("8"), HOUSE) - ohm_per_km(awg("4"), HOUSE)) * 1.0786 / 1000
    assert path_ohm(mixed, HOUSE) - path_ohm(thick, HOUSE) == pytest.approx(more)


@pytest.mark.parametrize(("out", "back"), [(-1, 0), (-1, 2), (2, -0.1), (2, float("inf"))])
def test_impossible_lengths(out: float, back: float) -> None:
    with pytest.raises(ValueError, match=r"positive|negative"):
        path_ohm(SupplyPath(out, back, awg("4")), HOUSE)


def test_an_amplifier_bolted_to_the_battery_has_its_joints_left() -> None:
    assert path_ohm(SupplyPath(0, 0, awg("4")), HOUSE) == HOUSE.joint_ohm
    assert path_ohm(SupplyPath(0, 0, awg("4"), joints=False), HOUSE) == 0


sizes = st.sampled_from(choice_awg())
amperes, metres = st.floats(0.1, 200), st.floats(0.1, 10)


@given(sizes, sizes, amperes, metres)
def test_drop_falls_with_area(one: Conductor, other: Conductor, amps: float, out: float) -> None:
    assert one.size_awg is not None and other.size_awg is not None
    if awg_area_mm2(one.size_awg) < awg_area_mm2(other.size_awg):
        thin, thick = SupplyPath(out, 0.5, one), SupplyPath(out, 0.5, other)
        assert path_drop_v(thin, amps, HOUSE) > path_drop_v(thick, amps, HOUSE)


@given(sizes, amperes, metres, st.floats(0.01, 5))
def test_drop_rises_with_length_and_current(
    size: Conductor, amps: float, out: float, more: float
) -> None:
    path = SupplyPath(out, 0.5, size)
    here = path_drop_v(path, amps, HOUSE)
    assert path_drop_v(SupplyPath(out + more, 0.5, size), amps, HOUSE) > here
    assert path_drop_v(path, amps + more, HOUSE) > here
