"""Nothing is asked for where hands do not come, nor before it is safe."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.model.access import Passage
from builder.planning.car.route_zones import zones_at_pass
from builder.planning.car.supply_way import unsaid_supply_way
from builder.planning.job.make_pack import make_pack
from builder.planning.sheet_rows import Stands, Step
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.job_steps import waiting_steps

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def one(pack: WorkPack, begins: str) -> Step:
    (step,) = [each for each in pack.steps if each.text.startswith(begins)]
    return step


@pytest.mark.parametrize("name", JOBS)
def test_a_supply_through_a_bulkhead_that_nobody_chose_waits_and_the_cover_says_so(
    name: str,
) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    ways = unsaid_supply_way(parts.job, parts.vehicle)
    steps = [step for step in pack.steps if "way of the supply" in step.text]
    assert len(steps) == (2 if ways else 0)
    for step in steps:
        assert step.blocked
        assert any(f"{step.number}" in each for each in waiting_steps(pack.steps))
    (held,) = [test for test in pack.tests if test.id == "held"]
    assert ("way of the supply" in held.what) == bool(ways)


def test_rook_passes_no_supply_before_somebody_said_where() -> None:
    pack = shipped_pack("rook-second-battery")
    through = one(pack, "way of the supply through the bulkhead: take supply through")
    assert "second clutch hole" in through.lines[0] and "nobody said where" in through.blocked
    lay = one(pack, "lay every cable")
    assert through.number < lay.number < one(pack, "way of the supply through the bulkhead closed"
                                             ).number  # fmt: skip


def test_every_reason_to_wait_is_told_once_with_all_its_steps() -> None:
    pack = shipped_pack("dash-converter")
    said = waiting_steps(pack.steps)
    blocked = {step.blocked for step in pack.steps if step.blocked}
    assert len(said) == len(blocked) > 0
    assert all(any(each.endswith(why) for each in said) for why in blocked)


def test_a_way_beside_a_restraint_part_is_worked_at_after_the_wait_and_names_it() -> None:
    pack, parts = shipped_pack("teasel-four-doors"), shipped_parts("teasel-four-doors")
    (way,) = parts.job.passes
    (zone,) = zones_at_pass(parts.vehicle, way)
    assert zone == "above the pedals"
    step = one(pack, "main grommet: take")
    assert zone in step.caution and "knee bag" in step.caution
    assert Stands("battery", "waited") in step.stands
    pointed_out = one(pack, f"restraint part near the work: {zone}")
    assert pointed_out.number < step.number


def test_a_way_that_is_near_none_needs_no_wait() -> None:
    parts = shipped_parts("tansy-subwoofer")
    (way,) = parts.job.passes
    far = Passage(
        name=way.through, where="beside the wiper motor", between=("engine bay", "plenum"),
        grommet="own",
    )  # fmt: skip
    car = replace(parts.vehicle, passages=(far,))
    assert zones_at_pass(car, way) == ()


@pytest.mark.parametrize("name", ["teasel-four-doors", "sedge-fronts", "leto-four-doors"])
def test_no_engine_starts_by_itself_while_a_seat_of_the_work_stands_loose(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    seats = [part.name for part in parts.vehicle.access if part.kind == "seat"]
    stands = dict.fromkeys(seats, "on")
    for step in pack.steps:
        stands |= {each.what: each.value for each in step.moves if each.what in seats}
        asked = [each for each in step.moves if each.value == "auto_restart"]
        assert not asked or set(stands.values()) == {"on"}, step.text


def test_leads_are_led_out_before_a_seat_covers_what_is_read() -> None:
    steps = shipped_pack("teasel-four-doors").steps
    loose = [step for step in steps if any(each.value == "loose" for each in step.moves)]
    assert loose
    for step in loose:
        assert step.lines[0].startswith("first: test leads")
        assert "with the key off" in step.lines[1]
    (restart,) = [test for test in shipped_pack("teasel-four-doors").tests
                  if test.id == "door-amp-turn-on-restart"]  # fmt: skip
    assert "led out from under the seat" in restart.what


@pytest.mark.parametrize("name", JOBS)
def test_only_a_seat_on_rails_is_said_to_slide(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    seats = {part.name: part for part in parts.vehicle.access if part.kind == "seat"}
    for test in pack.tests:
        if test.id.endswith("-travel"):
            (seat,) = [part for name, part in seats.items() if test.what.startswith(name)]
            assert ("whole travel" in test.what) == (
                seat.travel_mm is not None or (bool(seat.plugs) and seat.restraint != "no")
            )


def test_line_leads_behind_the_radio_are_unplugged_with_the_radio_out() -> None:
    for name in ("dash-converter",):
        back = shipped_pack(name).revert
        (leads,) = [at for at, line in enumerate(back) if line.startswith("Every line lead")]
        (out,) = [at for at, line in enumerate(back) if line.startswith("Radio out")]
        assert out < leads


@pytest.mark.parametrize("name", JOBS)
def test_the_way_back_speaks_of_no_main_fuse_once_its_holder_is_out(name: str) -> None:
    back = shipped_pack(name).revert
    out = [at for at, line in enumerate(back) if "holder of the main fuse" in line]
    assert all("ain fuse still out" not in line for at in out for line in back[at:])


def test_a_main_fuse_that_may_stand_out_is_named_when_the_battery_goes_on() -> None:
    steps = shipped_pack("tansy-subwoofer").steps
    on = [step for step in steps if Stands("battery", "on") in step.moves]
    assert on and all("main fuse still out" in step.text for step in on)


def test_a_car_without_passages_on_record_is_asked_for_one_all_the_same() -> None:
    parts = shipped_parts("rook-second-battery")
    car = replace(parts.vehicle, passages=())
    pack = make_pack(replace(parts, vehicle=car), defaults=HOUSE)
    through = one(pack, "way of the supply through the bulkhead: take supply through")
    assert through.blocked and through.lines[0].startswith("on record: none")


def test_no_way_is_asked_for_where_battery_and_amplifier_lie_on_one_side() -> None:
    parts = shipped_parts("tarn-subwoofer")  # its battery lies in the luggage bay
    assert not parts.vehicle.passages and unsaid_supply_way(parts.job, parts.vehicle) is None
    beside = replace(parts.job.amplifiers[0], place="engine bay, on the front wall")
    under = replace(parts.vehicle.power.battery, location="engine bay")
    car = replace(parts.vehicle, power=replace(parts.vehicle.power, battery=under))
    assert unsaid_supply_way(parts.job, car) is not None
    assert unsaid_supply_way(replace(parts.job, amplifiers=(beside,)), car) is None


def test_cutter_says_where_the_supply_passes_and_what_comes_off_for_it() -> None:
    pack = shipped_pack("cutter-fronts")
    through = one(pack, "left grommet: take supply through")
    assert not through.blocked and through.number < one(pack, "lay every cable").number
    off = [step for step in pack.steps if Stands("left kick panel", "off") in step.moves]
    seat = [step for step in pack.steps if Stands("left seat", "off") in step.moves]
    assert len(off) == len(seat) == 1
    assert max(off[0].number, seat[0].number) < through.number
    untold = [step.text for step in pack.steps if "how is not on record" in step.text]
    assert all(text.startswith("holder of the main fuse (") for text in untold)


@pytest.mark.parametrize("name", JOBS)
def test_no_seat_is_home_before_its_bolts_are_tight_as_its_maker_says(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    bolted = {each.name for each in parts.vehicle.access if each.kind == "seat" and each.fasteners}
    moved = {each.what for step in pack.steps for each in step.moves if each.what in bolted}
    homes = [
        step
        for step in pack.steps
        if any(each.what in bolted and each.value == "on" for each in step.moves)
    ]
    assert len(homes) == len(moved)
    assert all("vehicle maker's torque" in step.gate for step in homes)
    back = [
        line for line in pack.revert if any(f"{each} on again" in line.lower() for each in moved)
    ]
    assert len(back) == len(moved) and all("vehicle maker's torque" in line for line in back)
    assert moved or name not in ("sedge-fronts", "cutter-fronts", "teasel-four-doors")


def test_a_bench_that_hangs_on_hooks_has_no_bolt_to_tighten() -> None:
    pack = shipped_pack("leto-four-doors")
    (bench,) = [step for step in pack.steps if step.text.startswith("rear bench on again")]
    assert not bench.gate
