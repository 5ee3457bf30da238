"""A visit that only measures: no seat off, nothing loud, the car looked at when it is whole."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sin

import pytest
from pack_jobs import HOUSE, shipped_pack, shipped_parts

from builder.model.access import AccessPart
from builder.planning.job.make_pack import make_pack
from builder.planning.sheet_rows import Stands, Step
from builder.planning.work_pack import WorkPack

ULLIN = "ullin-split-fronts"
SEAT = "left front seat"


def probe() -> WorkPack:
    pack = shipped_pack(ULLIN)
    assert pack.kind == "probe_plan"
    return pack


def with_seat(**changed: object) -> WorkPack:
    parts = shipped_parts(ULLIN)
    access = tuple(
        replace(part, **changed) if part.name == SEAT else part  # type: ignore[arg-type]
        for part in parts.vehicle.access
    )
    return make_pack(replace(parts, vehicle=replace(parts.vehicle, access=access)), defaults=HOUSE)


def moves(steps: tuple[Step, ...], what: str) -> list[str]:
    return [each.value for step in steps for each in step.moves if each.what == what]


def test_a_seat_is_slid_bolted_and_back_again_and_no_battery_comes_off_for_it() -> None:
    steps = probe().steps
    assert moves(steps, SEAT) == ["slid", "on"]
    assert moves(steps, "battery") == []
    (slid,) = [step for step in steps if Stands(SEAT, "slid") in step.moves]
    assert "its bolts in and every plug of it home" in slid.text
    assert "no seat comes off for a reading" in slid.gate
    (read,) = [step for step in steps if "p-14-tone-ac-to-p-16" in step.tests]
    assert slid.number < read.number


def test_a_seat_with_a_restraint_plug_is_slid_also_where_nobody_read_its_travel() -> None:
    assert moves(with_seat(travel_mm=None).steps, SEAT) == ["slid", "on"]


def test_a_bench_that_has_no_rails_and_no_plug_comes_off() -> None:
    steps = with_seat(travel_mm=None, plugs=(), restraint="no").steps
    assert moves(steps, SEAT) == ["off", "on"]


def test_a_panel_near_a_restraint_part_is_waited_for_and_the_lamp_looked_at_afterwards() -> None:
    parts = shipped_parts(ULLIN)
    lid = AccessPart(name="a lid", kind="cover", uncovers=("factory amplifier", "under the left "
                     "front seat"), restraint="yes")  # fmt: skip
    car = replace(parts.vehicle, access=(*parts.vehicle.access, lid))
    steps = make_pack(replace(parts, vehicle=car), defaults=HOUSE).steps
    assert moves(steps, "a lid") == ["off", "on"]
    lamp = next(step for step in steps if "restraint-lamp" in step.tests)
    on = [step.number for step in steps if Stands("battery", "on") in step.moves]
    assert on and lamp.number > max(on)


def test_a_probe_plan_has_no_main_fuse_to_speak_of_and_ends_nothing() -> None:
    for pack in (probe(), with_seat(travel_mm=None, plugs=(), restraint="yes")):
        said = " ".join(f"{step.text} {step.gate}" for step in pack.steps)
        assert "main fuse" not in said and "ends the job" not in said
        assert "one outside its band too: the plan is made again" in said


def test_a_doubt_is_read_at_the_volume_that_its_line_asks_for() -> None:
    pack = probe()
    (read,) = [step for step in pack.steps if "p-14-tone-ac-to-p-16" in step.tests]
    assert "volume up from 0" in read.text and "loudest" not in read.text
    assert Stands("play", "quiet") in read.moves


def test_the_car_is_looked_at_as_it_is_left() -> None:
    pack = probe()
    order = [id for step in pack.steps for id in step.tests]
    assert order[-3:] == ["after-parking-sensor-tones", "restraint-lamp", "radio-home"]
    assert order.index("before-parking-sensor-tones") < order.index("after-parking-sensor-tones")
    assert pack.steps[-1].blocked == "the readings are not in yet"


@pytest.mark.parametrize("driven", [True, False])
def test_the_limit_between_two_legs_holds_whatever_the_negative_legs_are(driven: bool) -> None:
    """Two phasors a quarter turn apart: of a driven pair a leg has half the pair's volts."""
    pack = probe()
    (line,) = [test for test in pack.tests if test.id == "p-14-tone-ac-to-p-16"]
    assert "each positive leg reads 0.50 V AC to the body" in line.what
    assert "seat setting" in line.what
    pair_v = 1.0 if driven else 0.5
    leg_v = pair_v / 2 if driven else pair_v
    assert line.high == pytest.approx(2 * leg_v * sin(pi / 4))
