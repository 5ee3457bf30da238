"""What a battery is sure to hold, how long it lasts, and what cures a loop that loses too much."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.model.job import CarBattery
from builder.model.words import Listening
from builder.planning.job.make_pack import make_pack
from builder.planning.job.stored_charge import stored_charge
from builder.planning.pack_details import PowerSheet
from builder.planning.power.battery_kinds import LEAD_REST, aged_ah, battery_kind, held_share
from builder.planning.power.conductors import choice_awg
from builder.planning.power.loop import loop_flags, supply_loop
from builder.planning.power.loop_cures import with_cures
from builder.planning.power.supply_runs import RunDemand, judge_run
from builder.planning.work_pack import JobParts, WorkPack

JOB = "tansy-two-coils"
PLANNED = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def with_battery(battery: CarBattery | None) -> JobParts:
    parts = shipped_parts(JOB)
    return replace(parts, job=replace(parts.job, supply=replace(parts.job.supply, battery=battery)))


def power_of(parts: JobParts) -> tuple[WorkPack, PowerSheet]:
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.power is not None
    return pack, pack.power


@pytest.mark.parametrize(
    ("volts", "share"), [(12.65, 1.0), (12.24, 0.5), (12.06, 0.25), (11.0, 0.0), (13.0, 1.0)]
)
def test_rest_volts_say_what_a_lead_battery_holds(volts: float, share: float) -> None:
    """Battery Council International, wet lead and acid (memory)."""
    assert held_share(volts, LEAD_REST) == pytest.approx(share)


def test_hours_come_from_what_the_battery_is_sure_to_hold_not_from_its_label() -> None:
    """0.5·60·0.444/(0.9 + base + music), against the label's 0.5·60."""
    parts = shipped_parts(JOB)
    pack, power = power_of(parts)
    base, idle = parts.vehicle.power.base_load_key_off_a, parts.job.supply.idle_a
    assert base and idle and power.listening_h
    drawn = base + idle + power.music_current_a
    held = 0.25 + 0.25 * (12.2 - 12.06) / (12.24 - 12.06)
    assert power.listening_h == pytest.approx(0.5 * 60 * held / drawn)
    assert power.parked_days == pytest.approx(0.4 * 60 * held / 0.029 / 24)  # 24 mA before, 5 added
    assert any("12.2 V at rest 44.4% full" in line for line in pack.customer)


@pytest.mark.parametrize(
    ("type", "rest_v", "share"), [("lead_acid", 12.2, 0.5), ("agm", 12.4, 0.6),
                                  ("lithium", 13.2, 0.8), ("unknown", 12.2, 0.5)]
)  # fmt: skip
def test_each_kind_has_its_rest_volts_and_its_usable_share(
    type: str, rest_v: float, share: float
) -> None:
    battery = CarBattery(type=type, ah=70, age_years=None)  # type: ignore[arg-type]
    pack, power = power_of(with_battery(battery))
    rest = next(test for test in pack.tests if test.id == "battery-rest")
    kind = battery_kind(battery.type, HOUSE)
    assert rest.low == rest_v and kind.usable_share == share
    stored = stored_charge(with_battery(battery), HOUSE)
    assert stored is not None and stored.held_ah == pytest.approx(70 * kind.accepted_share)
    assert "70 Ah" in power.lasts_from


def test_age_takes_a_share_and_no_more_than_half() -> None:
    assert aged_ah(80, 4, HOUSE) == pytest.approx(64)
    assert aged_ah(80, 30, HOUSE) == 40
    old = power_of(with_battery(CarBattery(type="lead_acid", ah=60, age_years=4)))[1]
    new = power_of(with_battery(CarBattery(type="lead_acid", ah=60, age_years=0)))[1]
    assert old.listening_h == pytest.approx(0.8 * (new.listening_h or 0))


@pytest.mark.parametrize("name", PLANNED)
def test_days_are_counted_with_the_draw_that_the_last_line_of_the_bay_sheet_allows(
    name: str,
) -> None:
    """What was drawn before and what each device may add: never what was read before alone."""
    parts = shipped_parts(name)
    pack, power = power_of(parts)
    (after,) = [test for test in pack.tests if test.id == "parked-after"]
    stored = stored_charge(parts, HOUSE)
    assert stored is not None and after.high == power.parked_draw_ma
    assert power.parked_days == pytest.approx(
        HOUSE.parked_share * stored.held_ah / (after.high / 1000) / 24
    )
    (said,) = [line for line in pack.customer if line.startswith("Left standing")]
    assert said.endswith(f"at the most that it may draw then, {after.high:g} mA.")


def test_cures_of_a_loop_are_named_the_cheapest_first_and_each_of_them_cures() -> None:
    """58.8 A through 5.0 m of 4 AWG and a strap of 3 mΩ: 0.523 V, 0.50 V allowed."""
    sizes = choice_awg("copper")
    four = next(each for each in sizes if each.size_awg == "4")
    demand = RunDemand("supply", 58.8, 60, 4.6, 0.4, joints=True)
    trunk = judge_run(demand, four, HOUSE)
    loop = with_cures(supply_loop(trunk.run.drop_v, 58.8, 0.003, HOUSE), trunk, sizes, HOUSE)
    assert loop.drop_v == pytest.approx(0.523, abs=5e-4)
    strap, cable, place = loop.cures
    assert strap.startswith("a strap of at most 2.6 mΩ")
    assert cable.startswith("2 AWG copper") and "0.427 V" in cable
    metres = float(place.split()[2])
    nearer = judge_run(replace(demand, out_m=4.6 - metres), four, HOUSE).run.drop_v
    assert nearer + 58.8 * 0.003 == pytest.approx(0.50, abs=0.005)
    assert "the cheapest first: a strap" in loop_flags(loop, HOUSE)[0].says


def test_a_good_loop_and_one_that_nobody_read_need_no_cure() -> None:
    sizes = choice_awg("copper")
    four = next(each for each in sizes if each.size_awg == "4")
    trunk = judge_run(RunDemand("supply", 58.8, 60, 4.6, 0.4, joints=True), four, HOUSE)
    for strap in (0.0009, None):
        loop = supply_loop(trunk.run.drop_v, 58.8, strap, HOUSE)
        assert with_cures(loop, trunk, sizes, HOUSE).cures == ()


def test_grounds_of_converter_and_amplifier_are_compared_with_loud_music() -> None:
    pack, _ = power_of(shipped_parts(JOB))
    line = next(test for test in pack.tests if test.id == "sub-amp-grounds-apart")
    assert (line.high, line.unit) == (0.05, "V")


@pytest.mark.parametrize(
    ("volts", "share"), [(12.0, 0.09), (12.8, 0.17), (13.0, 0.3), (13.1, 0.4), (13.2, 0.7),
                         (13.3, 0.9), (13.4, 0.99), (12.4, 0.13)],
)  # fmt: skip
def test_rest_volts_say_little_of_four_lithium_cells(volts: float, share: float) -> None:
    """Makers' sheets of iron phosphate cells (memory)."""
    assert held_share(volts, battery_kind("lithium", HOUSE).rest) == pytest.approx(share)


@pytest.mark.parametrize("listening", ["heavy", "light"])
def test_hours_are_told_for_the_music_that_they_are_counted_with(listening: Listening) -> None:
    parts = shipped_parts(JOB)
    supply = replace(parts.job.supply, listening=listening)
    pack, power = power_of(replace(parts, job=replace(parts.job, supply=supply)))
    (told,) = [line for line in pack.customer if line.startswith("Engine off")]
    loud = "loud music" if listening == "heavy" else "light music"
    assert told.startswith(f"Engine off, {loud}: about ")
    assert ("loud music much less" in told) == (listening == "light")
    (why,) = [each for each in power.because if each.decision.startswith("hours at ")]
    taken = float(why.decision.removeprefix("hours at ").removesuffix(" A"))
    held = stored_charge(parts, HOUSE)
    assert held is not None and power.listening_h is not None
    assert taken * power.listening_h == pytest.approx(0.5 * held.held_ah, rel=0.01)
    assert f"{listening} music" in why.because


@pytest.mark.parametrize("name", PLANNED)
def test_the_customer_is_sent_to_the_main_fuse_alone(name: str) -> None:
    last = shipped_pack(name).customer[-1]
    assert "Pull the main fuse" in last and "take nothing apart" in last


@pytest.mark.parametrize("name", PLANNED)
def test_the_joints_are_named_where_the_volts_of_a_supply_are(name: str) -> None:
    pack = shipped_pack(name)
    assert pack.power is not None
    said = [each.because for each in pack.power.because if " m out and back " in each.because]
    assert said and "1.5 mΩ for all joints of the path, lose" in said[0]
