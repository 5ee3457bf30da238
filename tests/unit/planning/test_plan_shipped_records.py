"""The worked jobs on the records of the book itself."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from shipped_cars import CARS, car

from builder.declaring import read
from builder.loading.reading import load_file
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter
from builder.planning.feeds.tap_plan import make_plan, serves
from builder.planning.plan import Plan

BOOK = Path(__file__).parents[3] / "pinouts"
HOUSE = HouseDefaults()
CONVERTERS = sorted(path for path in BOOK.glob("converters/*.yaml") if path.stem != "TEMPLATE")


def data_of(path: Path) -> dict[str, Any]:
    data: dict[str, Any] = load_file(path, path.name).data
    return data


def shipped(vehicle: str, converter: str, **more: Any) -> Plan:
    part = read(Converter, data_of(BOOK / "converters" / f"{converter}.yaml"))
    return make_plan(car(vehicle), part, defaults=HOUSE, **more)


def turn_on(plan: Plan) -> tuple[Any, ...]:
    found = plan.turn_on
    return (found.rung, found.kind, found.draw_ma)


def margin_db(plan: Plan) -> list[float]:
    return [round(level.converter_margin_db, 1) for level in plan.levels]


def test_ostrel_tansy_subwoofer() -> None:
    plan = shipped("ostrel-tansy-2017-hatch-base", "cvn-2a")
    assert plan.kind == "tap_plan"
    assert [feed.channel for feed in plan.feeds][::2] == ["rear-left", "rear-right"]
    assert turn_on(plan) == (2, "retained", 8)
    assert plan.turn_on.cavity == "7"
    assert plan.levels[0].source_v_rms == pytest.approx(8.246, abs=0.001)
    assert margin_db(plan) == [7.7, 7.7]


def test_brantmoor_leto_four_doors() -> None:
    plan = shipped("brantmoor-leto-2019-wagon-mid", "cvn-4a")
    assert plan.kind == "tap_plan"
    assert turn_on(plan) == (1, "amplifier_on", 8)
    assert plan.turn_on.capacity_ma == 250
    assert margin_db(plan) == [7.0] * 4
    assert any("47 Ω" in reason.decision for reason in plan.because)


def test_veldane_ullin_split_fronts() -> None:
    plan = shipped("veldane-ullin-2021-premium", "cvn-6s")
    assert (plan.kind, plan.feeds) == ("probe_plan", ())  # nothing to join from yet
    assert margin_db(plan) == [12.0] * 5
    assert turn_on(plan)[:2] == (5, "offset_wake")
    assert any("-6.75 dB" in refusal.because for refusal in plan.refusals)
    assert shipped("veldane-ullin-2021-premium", "cvn-4a").kind == "no_plan"


def test_cindral_teasel_without_a_switched_wire() -> None:
    plan = shipped("cindral-teasel-2023", "cvn-2a")
    assert plan.kind == "tap_plan"
    assert turn_on(plan)[:2] == (4, "fuse_position")
    assert plan.turn_on.fuse_position == "F14"
    assert [level.source_v_rms for level in plan.levels] == [9.12, 9.12]
    assert next(rung for rung in plan.ladder if rung.rung == 5).verdict == "possible"


def test_mirdle_cutter_common_ground() -> None:
    plan = shipped("mirdle-cutter-1996", "cvn-2p")
    assert plan.kind == "tap_plan"
    assert margin_db(plan) == [7.2, 7.2]
    verdicts = {rung.rung: rung.verdict for rung in plan.ladder if rung.verdict == "chosen"}
    assert verdicts == {3: "chosen"}
    assert shipped("mirdle-cutter-1996", "cvn-2p", treatment="intercept").kind == "no_plan"


def test_torvane_rook_doors_and_subwoofer() -> None:
    plan = shipped("torvane-rook-2016-pickup", "cvn-6s")
    assert plan.kind == "tap_plan"
    assert len(plan.feeds) == 2 * 4
    assert turn_on(plan) == (1, "amplifier_on", 8)
    assert plan.turn_on.capacity_ma == 100
    assert any("17.9 V" in reason.because for reason in plan.because)


@pytest.mark.parametrize("trim", ["mid", "top"])
def test_quillan_lovage_behind_its_amplifier(trim: str) -> None:
    plan = shipped(f"quillan-lovage-2021-{trim}", "cvn-2a")
    assert plan.kind == "tap_plan"
    assert [feed.channel for feed in plan.feeds] == ["sub", "sub"]
    assert turn_on(plan)[:2] == (5, "offset_wake")
    assert plan.levels[0].converter_margin_db == pytest.approx(3.98, abs=0.005)


@pytest.mark.parametrize("name", CARS)
def test_no_shipped_plan_breaks_its_word(name: str) -> None:
    vehicle = car(name)
    pages = 0
    for part in (read(Converter, data_of(path)) for path in CONVERTERS):
        pages += serves(vehicle, part, HouseDefaults())[0]
        plan = make_plan(vehicle, part, defaults=HOUSE)
        assert (plan.kind == "tap_plan") == (not plan.refusals)
        assert plan.kind != "probe_plan" or plan.tests
        if plan.kind == "tap_plan":
            assert plan.grade in ("proven", "good", "check first")
    assert 1 <= pages <= 6
