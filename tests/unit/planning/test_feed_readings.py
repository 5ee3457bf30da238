"""The feed of each small device is read under a lamp, against the battery: a bad joint shows."""

from __future__ import annotations

import pytest
from comeback_jobs import TAP_PLANS, causes_in
from pack_jobs import HOUSE, shipped_pack, shipped_parts

from builder.planning.bay import bands
from builder.planning.bay.feed_tests import LAMP_A, small_feeds
from builder.planning.bay.ids import speakable
from builder.planning.circuit.index import CircuitIndex
from builder.planning.comeback.ask import Comeback
from builder.planning.comeback.caught import catches
from builder.planning.comeback.condition import Condition
from builder.planning.comeback.symptoms import symptoms_of
from builder.planning.work_pack import BayTest
from builder.proof.band import where_in

COPPER_OHM_MM2_PER_M = 0.0172
"""IEC 60228: annealed copper at 20 °C, from memory; 0.393 % more for each kelvin."""
AWG_18_MM2 = 0.823
"""ASTM B258, from memory."""


def feed_line(name: str, device: str = "CVN-2A") -> BayTest:
    id = speakable(device, "feed")
    return next(test for test in shipped_pack(name).tests if test.id == id)


@pytest.mark.parametrize("name", TAP_PLANS)
def test_each_weak_joint_of_a_feed_is_found_by_the_line_of_that_feed(name: str) -> None:
    job = causes_in(name).job
    for device, *links in small_feeds(job.circuit):
        joints = {joint.id for link in links for joint in job.index.joints_on(link)}
        mine = [c for c in catches(causes_in(name)) if c.fault.kind == "weak"]
        mine = [each for each in mine if each.fault.at in joints]
        assert mine or name == "cutter-fronts"
        for each in mine:
            assert each.line is not None and each.in_time, each.fault.id
            shared = [link for link in job.circuit.links if each.fault.at in link.path]
            if len(shared) == 1:
                assert each.line.id == speakable(device, "feed"), each.fault.id


def test_what_was_found_by_a_thump_alone_is_found_by_no_thump_now() -> None:
    lines = [
        (name, each.fault.id)
        for name in TAP_PLANS
        for each in catches(causes_in(name))
        if each.line is not None and each.line.id in ("switch-on-thump", "restarts")
    ]
    assert lines == []


def test_the_limit_is_what_wires_lose_and_half_an_ohm_at_the_lamp() -> None:
    """Feed and ground of the small device by hand, and the run to the amplifier it hangs on."""
    pack = shipped_pack("tansy-subwoofer")
    index = CircuitIndex(pack.circuit) if pack.circuit else None
    assert index is not None and pack.power is not None
    wires = [index.wires[each] for each in ("supply of CVN-2A", "ground of CVN-2A")]
    metres = sum(wire.length_m or 0.0 for wire in wires)
    assert {wire.size.words for wire in wires if wire.size} == {"18 AWG copper"}
    hot = COPPER_OHM_MM2_PER_M * (1 + 0.00393 * (HOUSE.hot_conductor_c - 20))
    own_v = (LAMP_A + 0.05) * metres * hot / AWG_18_MM2
    idle = shipped_parts("tansy-subwoofer").amplifiers["sub amp"].supply.idle_a + 0.04
    trunk_v = (idle + LAMP_A) * pack.power.runs[0].drop_v / pack.power.full_current_a
    low = feed_line("tansy-subwoofer").low_from_battery_v
    assert low == pytest.approx(-(bands.LAMP_DROP_MAX_V + own_v + trunk_v), abs=0.002)


@pytest.mark.parametrize(("ohm", "where"), [(0.1, "in"), (0.4, "in"), (0.6, "low"), (2.0, "low")])
def test_an_ohm_shows_and_a_good_fuse_does_not(ohm: float, where: str) -> None:
    line = feed_line("tansy-subwoofer")
    assert where_in(line.band, 12.50 - (LAMP_A + 0.05) * ohm, 12.50) == where


def test_the_cars_own_wires_may_lose_what_the_house_grants_them() -> None:
    """Where a converter hangs on the radio's plug nobody knows the way from the battery."""
    low = feed_line("dash-converter").low_from_battery_v
    granted = HOUSE.supply_match_v + HOUSE.ground_drop_v + bands.LAMP_DROP_MAX_V
    assert low is not None and granted < -low < granted + 0.05


def test_the_second_battery_is_read_beside_what_hangs_on_it() -> None:
    assert feed_line("rook-second-battery").what.endswith("beside the second battery's")
    assert "second" not in feed_line("tansy-subwoofer").what


def test_a_passive_converter_has_no_feed_to_read() -> None:
    assert [x.id for x in shipped_pack("cutter-fronts").tests if x.id.endswith("-feed")] == []


@pytest.mark.parametrize("name", ["tansy-subwoofer", "teasel-four-doors", "dash-converter"])
def test_a_car_that_pops_by_its_feed_is_led_to_it_by_that_reading(name: str) -> None:
    causes = causes_in(name)
    asking = Comeback(causes).asking("pops")
    ids = {reading.test.id for reading in asking.readings}
    for device, *links in small_feeds(causes.job.circuit):
        line = speakable(device, "feed")
        assert line in ids
        joints = {joint.id for link in links for joint in causes.job.index.joints_on(link)}
        weak = [each for each in causes.faults if each.kind == "weak" and each.at in joints]
        for fault in weak:
            now = Condition(causes.job.healthy, fault)
            if "pops" in symptoms_of(causes.job, now):
                assert causes.looks[line](now) == "low"
