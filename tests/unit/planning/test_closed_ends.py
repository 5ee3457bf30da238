"""What of the car is under a sleeve is listed where the job is undone; devices have places."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.job.make_pack import make_pack
from builder.rendering.pages.closed_ends import closed_off, planned_open

BUILT = [name for name in SHIPPED if shipped_pack(name).circuit is not None]


@pytest.mark.parametrize("name", BUILT)
def test_no_end_that_is_joined_is_called_open_or_closed_off(name: str) -> None:
    pack = shipped_pack(name)
    assert pack.circuit is not None
    left = {end.what for end in pack.circuit.open_ends}
    assert {end.what for end in (*planned_open(pack), *closed_off(pack))} <= left


def test_what_is_spare_in_the_jobs_own_cables_is_closed_off_and_leaves_with_them() -> None:
    """The way back takes those cables out: to insulate their cores there would be no work."""
    pack = shipped_pack("teasel-four-doors")
    assert sum("(single 1) of cable" in end.what for end in pack.insulate) == 6
    assert not closed_off(pack)


def test_an_end_of_the_car_under_a_sleeve_is_listed_where_the_job_is_undone() -> None:
    """Of a pair that is driven and feeds nothing, the radio's ends are closed off in the car."""
    parts = shipped_parts("sorrel-five-channels")
    pack = make_pack(replace(parts, job=replace(parts.job, looms=())), defaults=HOUSE)
    assert pack.circuit is not None
    ends = {end.what for end in closed_off(pack)}
    assert len(ends) == 4 and all(each.startswith("radio end of rear") for each in ends)


def test_four_doors_join_every_speaker_end_again() -> None:
    pack = shipped_pack("leto-four-doors")
    assert any(end.what.startswith("speaker end") for end in pack.plan.insulate)
    assert not any(end.what.startswith("speaker end") for end in planned_open(pack))


def test_a_plan_that_joins_nothing_yet_keeps_its_list() -> None:
    pack = shipped_pack("ullin-split-fronts")
    assert planned_open(pack) == list(pack.plan.insulate) and not closed_off(pack)


def test_a_device_without_a_place_is_asked_for_it_on_the_way_in_and_out() -> None:
    parts = shipped_parts("rook-second-battery")
    (sub,) = parts.job.speakers
    job = replace(parts.job, speakers=(replace(sub, place=None),))
    pack = make_pack(replace(parts, job=job), defaults=HOUSE)
    fixed = [step.text for step in pack.steps if step.text.startswith("subwoofer fixed")]
    assert [said for said in fixed if "where and how are not on record; write down both" in said]
    (out,) = [line for line in pack.revert if line.startswith("Subwoofer") and " out: " in line]
    assert out.rstrip(".").endswith("at the place that was written down")
    (amp,) = [line for line in pack.revert if line.startswith("Sub amp") and " out: " in line]
    assert "place that was written down" not in amp
