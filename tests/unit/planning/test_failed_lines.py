"""What a phone says of a line that failed: true causes, the likeliest first, and a reading that is
no step ahead of the work."""

from __future__ import annotations

from functools import cache

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.comeback.ask import Comeback
from builder.planning.comeback.causes import Causes
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.failed_lines import MOST_TOLD, FailedLine, failed_lines
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.work_pack import BayTest

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"][::3]
POWERED = ("radio_on_zero", "radio_on_tone", "engine", "run", "accessory", "tuner")


@cache
def back(name: str) -> Comeback:
    return Comeback(Causes(HandedOver(shipped_parts(name), shipped_pack(name), HOUSE)))


@cache
def failed(name: str) -> dict[str, tuple[FailedLine, ...]]:
    return failed_lines(back(name))


def lines(name: str) -> dict[str, BayTest]:
    return {test.id: test for test in shipped_pack(name).tests}


@pytest.mark.parametrize("name", JOBS)
def test_every_cause_makes_its_line_fail_in_that_way_and_none_is_lost(name: str) -> None:
    causes = back(name).causes
    assert failed(name)
    for line, sides in failed(name).items():
        check = lines(name)[line].quantity == "check"
        found = [fault for side in sides for cause in side.causes for fault in cause.faults]
        told = {fault.id for fault in causes.of(line)}
        assert {fault.id for fault in found} <= told
        for side in sides:
            for fault in (fault for cause in side.causes for fault in cause.faults):
                where = causes.looks[line](causes.standing[fault.id])
                assert where == side.where or (check and side.where == "none" and where != "in")
            first = [cause.faults[0] for cause in side.causes]
            order = [(found_before(name, line, fault), -fault.odds) for fault in first]
            assert order == sorted(order)
            assert len(side.causes) <= MOST_TOLD and (
                len(side.causes) == MOST_TOLD or not side.more
            )


def found_before(name: str, line: str, fault: Fault) -> bool:
    """Whether a line that passed would have failed with it."""
    causes, own = back(name).causes, lines(name)[line].number
    earlier = [x.id for x in lines(name).values() if x.number < own and x.id in causes.looks]
    return any(causes.looks[x](causes.standing[fault.id]) != "in" for x in earlier)


def test_a_feed_that_reads_low_is_a_bad_joint_before_an_open_one() -> None:
    """An open one switches nothing on, and the line before this one reads that."""
    (side,) = failed("tansy-subwoofer")["cvn-2a-feed"]
    assert {fault.kind for cause in side.causes[:2] for fault in cause.faults} == {"weak"}


@pytest.mark.parametrize("name", JOBS)
def test_the_next_reading_tells_the_causes_apart_and_asks_for_no_power_before_its_time(
    name: str,
) -> None:
    asked = 0
    for line, sides in failed(name).items():
        own = lines(name)[line]
        for side in (each for each in sides if each.next is not None):
            assert side.next is not None
            test = side.next.test
            assert test.id != line
            found = {back(name).find(side.next, cause.faults[0]) for cause in side.causes}
            assert len(found) > 1
            if own.phase == "build":
                assert test.state not in POWERED, (line, test.id)
            if test.id in lines(name) and test.state in POWERED:
                assert lines(name)[test.id].number < own.number, (line, test.id)
            if own.turn != "loud" and test.state == "engine":
                reached = [x for x in lines(name).values() if x.number <= own.number]
                assert any(x.state == "engine" for x in reached), (line, test.id)
            asked += 1
    assert asked > 5
