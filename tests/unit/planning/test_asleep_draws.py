"""What the parked car may draw after the work: each fitted device counts, by its record."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from test_second_battery import second, with_second

from builder.model.job import Result
from builder.planning.job.make_pack import make_pack
from builder.planning.power.asleep_draws import (
    asleep_allowance_ma,
    asleep_draws,
    parked_before_ma,
    parked_is_read,
)
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.rendering.pages.job_phrases import power_facts

PLANNED = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def line(pack: WorkPack, id: str) -> BayTest:
    return next(test for test in pack.tests if test.id == id)


def allowed(parts: JobParts) -> float:
    turn_on = make_pack(parts, defaults=HOUSE).plan.turn_on
    return asleep_allowance_ma(parts, turn_on, HOUSE)


@pytest.mark.parametrize("name", PLANNED)
def test_the_limit_is_one_rule_and_says_what_it_is_counted_from(name: str) -> None:
    """Read in this visit: one figure. Counted by the job, or by nobody: a sum to be made, with what
    it comes to as the job counts."""
    pack, parts = shipped_pack(name), shipped_parts(name)
    more = asleep_allowance_ma(parts, pack.plan.turn_on, HOUSE)
    before, after = parked_before_ma(parts.job), line(pack, "parked-after")
    assert before is not None and after.high == pytest.approx(before + more)
    rule = f"{more:g} mA more than parked-before read"
    read = parked_is_read(parts.job)
    assert f"{more:g} mA" in after.why
    assert (f"{rule}, once it did; {before:g} mA until then" in after.why) != read
    assert (f"counts with {before:g} mA" in line(pack, "parked-before").why) != read
    unread = replace(parts.job, results=(), supply=replace(parts.job.supply, parked_ma=None))
    open_one = line(make_pack(replace(parts, job=unread), defaults=HOUSE), "parked-after")
    assert open_one.high is None
    assert open_one.what.endswith(f": at most {rule}")
    for each in (pack, make_pack(replace(parts, job=unread), defaults=HOUSE)):
        assert "parked-after" not in line(each, "parked-before").what
    (why,) = [each for each in pack.because if each.decision.startswith("the parked car may draw")]
    assert f"{more:g} mA more than before" in why.decision


@pytest.mark.parametrize("name", PLANNED)
def test_every_device_that_stays_on_the_battery_counts(name: str) -> None:
    parts, pack = shipped_parts(name), shipped_pack(name)
    found = asleep_draws(parts, pack.plan.turn_on)
    assert set(parts.amplifiers) <= set(found)
    assert (parts.converter.name in found) == (parts.converter.supply is not None)
    (why,) = [each for each in pack.because if each.decision.startswith("the parked car may draw")]
    assert all(device in why.because for device in found)


def test_a_record_that_says_it_stands_in_place_of_the_default() -> None:
    """Converter and two amplifiers, 2.5 mA each; an amplifier that takes 0.4 mA, one that 9."""
    parts = shipped_parts("rook-two-amplifiers")
    assert allowed(parts) == pytest.approx(7.5)
    for asleep_ma, expected in ((0.4, 5.4), (9.0, 14.0)):
        doors = parts.amplifiers["door amp"]
        told = replace(doors, supply=replace(doors.supply, asleep_ma=asleep_ma))
        changed = replace(parts, amplifiers={**parts.amplifiers, "door amp": told})
        assert allowed(changed) == pytest.approx(expected)


def test_few_devices_leave_the_allowance_of_the_house() -> None:
    parts = shipped_parts("tansy-subwoofer")
    assert allowed(parts) == 5.0
    quiet = {n: replace(a, supply=replace(a.supply, asleep_ma=0.1))
             for n, a in parts.amplifiers.items()}  # fmt: skip
    assert allowed(replace(parts, amplifiers=quiet)) == 5.0


def test_an_interface_and_what_joins_a_second_battery_count() -> None:
    parts = shipped_parts("teasel-four-doors")
    found = asleep_draws(parts, shipped_pack("teasel-four-doors").plan.turn_on)
    assert found["OK-7N"] == parts.shelf.interfaces["ok-7n"].supply.idle_ma
    turn_on = shipped_pack("tansy-subwoofer").plan.turn_on
    for way, more in (("relay", 1), ("dc_charger", 1), ("diode", 0)):
        joined, alone = (
            asleep_draws(with_second(each, "tansy-subwoofer"), turn_on)
            for each in (second(way), None)
        )
        assert len(joined) - len(alone) == more


def test_what_was_read_counts_before_what_the_job_says() -> None:
    parts = shipped_parts("tansy-subwoofer")
    read = Result(test="parked-before", value=31.0, by="some-shop", date="2025-05-20")
    job = replace(parts.job, results=(read,))
    assert parked_before_ma(job) == 31 != parked_before_ma(parts.job)
    after = line(make_pack(replace(parts, job=job), defaults=HOUSE), "parked-after")
    assert after.high == pytest.approx(36) and "parked-before" not in after.what


@pytest.mark.parametrize("name", PLANNED)
def test_before_and_after_are_read_after_the_same_wait(name: str) -> None:
    pack = shipped_pack(name)
    wait = f"asleep for {HOUSE.asleep_proved_min:g} min"
    lines = [each.what for each in pack.tests if each.id.startswith("parked-")]
    assert len(lines) >= 2 and all(wait in what for what in lines)


@pytest.mark.parametrize("name", PLANNED)
def test_hours_are_of_one_loudness_and_one_figure_on_both_sheets(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    assert pack.power is not None
    (fact,) = [x for x in power_facts(pack.power, parts) if x.label.endswith("the engine off")]
    music = fact.label.removesuffix(" with the engine off").lower()
    (told,) = [line for line in pack.customer if line.startswith("Engine off, ")]
    assert told.startswith(f"Engine off, {music}: about {fact.value}")
