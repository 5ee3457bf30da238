"""The way back of a job that is begun: of what is joined, all of it, and of nothing else."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

import pytest
from pack_jobs import SHIPPED, shipped_pack, shipped_parts

from builder.model.job import AsBuilt, FittedLoom, MadeJoint
from builder.planning.course.back_lines import back_lines
from builder.planning.course.joined import UNPLUG
from builder.planning.course.model import Act, Course
from builder.planning.course.search import shortest
from builder.planning.course.simulate_back import broken_back
from builder.planning.course.way_back import back_problem
from builder.planning.job.as_built import as_built_of
from builder.planning.job.back_from import customer_lines_from, way_back_from, work_back_from
from builder.planning.work_pack import WorkPack

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]
FEW = ("tansy-subwoofer", "teasel-four-doors", "sedge-fronts", "cutter-fronts")
READ = ("radio plays at every speaker", "estraint lamp lights", "as they were written down")


def built(name: str) -> AsBuilt:
    found = as_built_of(shipped_pack(name), shipped_parts(name))
    assert found is not None
    return found


def walked(name: str, as_built: AsBuilt, pack: WorkPack | None = None) -> Course:
    """The course, once it has been walked through and every joint was undone that is there."""
    work = work_back_from(pack or shipped_pack(name), shipped_parts(name), as_built)
    problem = back_problem(work)
    course = shortest(problem)
    assert course.missing == ()
    assert list(broken_back(course, problem.begins, work.joined, work.parts)) == []
    undone = Counter(id for move in course.moves if isinstance(move, Act) for id in move.makes)
    own = {each.id for each in as_built.joints if each.way_back not in ("", UNPLUG)}
    assert undone == Counter(own)
    return course


def until(name: str, step: int) -> AsBuilt:
    """What is joined when somebody stops after a step."""
    pack, whole = shipped_pack(name), built(name)
    made = {id for each in pack.steps if each.number <= step for id in each.makes}
    moved = {(x.what, x.value) for each in pack.steps if each.number <= step for x in each.moves}
    return replace(
        whole,
        joints=tuple(each for each in whole.joints if each.id in made),
        conductors=whole.conductors if ("cables", "laid") in moved else (),
        looms=tuple(x for x in whole.looms if (f"plug {x.plug}", "in loom") in moved),
        fuses=whole.fuses if ("main fuse", "in") in moved else (),
    )


CAVITY = re.compile(r"\bA\.\d+")


@pytest.mark.parametrize("name", JOBS)
def test_carried_out_as_planned_it_is_the_way_back_of_the_plan(name: str) -> None:
    pack = shipped_pack(name)
    assert back_lines(walked(name, built(name))) == pack.revert
    assert way_back_from(pack, shipped_parts(name), built(name)) == pack.revert


@pytest.mark.parametrize("name", FEW)
def test_left_half_done_only_what_is_joined_is_undone(name: str) -> None:
    pack = shipped_pack(name)
    making = [step.number for step in pack.steps if step.makes]
    for step in {0, making[0], making[len(making) // 2], making[-1]}:
        there = until(name, step)
        said = back_lines(walked(name, there))
        assert all(any(words in line for line in said) for words in READ)
        cavities = {at for x in built(name).joints for at in CAVITY.findall(x.meets)}
        open_still = cavities - {at for x in there.joints for at in CAVITY.findall(x.meets)}
        for at in open_still:
            assert not any(line.startswith(f"{at}:") for line in said), (step, at)
        assert ("Main fuse out." in said) == bool(there.fuses)
        assert any(line.startswith("Take supply, ground") for line in said) == bool(
            there.conductors or there.joints or there.fuses
        )


def test_what_an_older_pack_wrote_of_a_cut_wire_is_what_was_planned() -> None:
    """It named the wire without its end; the joint is the same, and nothing was done otherwise."""
    name = "teasel-four-doors"
    whole = built(name)
    before = tuple(
        replace(x, meets=re.sub("(radio|speaker) end of ", "", x.meets)) for x in whole.joints
    )
    assert sum(old != new for old, new in zip(before, whole.joints, strict=True)) == 16
    assert back_lines(walked(name, replace(whole, joints=before))) == shipped_pack(name).revert


def test_a_device_at_which_nothing_ends_comes_out_if_it_is_there() -> None:
    nothing = until("tansy-subwoofer", 0)
    said = back_lines(walked("tansy-subwoofer", nothing))
    assert sum("if it is in the car" in line for line in said) == 3
    whole = back_lines(walked("tansy-subwoofer", built("tansy-subwoofer")))
    assert not any("if it is in the car" in line for line in whole)


def test_what_was_joined_otherwise_is_undone_in_its_own_words_at_its_own_place() -> None:
    name = "teasel-four-doors"
    whole = built(name)
    turned = tuple(
        replace(x, meets="A.3 blue and cable 1 pair 1 positive, brown", place="left kick panel")
        if x.meets.startswith("radio end of A.1 ")
        else x
        for x in whole.joints
    )
    assert turned != whole.joints
    said = back_lines(walked(name, replace(whole, joints=turned)))
    (line,) = [x for x in said if "A.3 blue" in x]
    assert line.endswith("(left kick panel).")
    at = said.index(line)
    off = next(n for n, x in enumerate(said) if "battery negative off" in x)
    assert off < next(n for n, x in enumerate(said) if x.startswith("Wait ")) < at
    assert not any(x.startswith("A.11: take cable 1 pair 1 positive") for x in said)


def test_a_loom_is_unplugged_where_one_was_fitted_and_nowhere_else() -> None:
    whole = built("sedge-fronts")
    without = replace(
        whole, looms=(), joints=tuple(x for x in whole.joints if "loom" not in x.meets)
    )
    assert not any("unplug" in x.lower() for x in back_lines(walked("sedge-fronts", without))
                   if "loom" in x)  # fmt: skip
    other = replace(whole, looms=(FittedLoom(record="bench-made-16", plug="A"),))
    said = back_lines(walked("sedge-fronts", other))
    assert sum("loom bench-made-16" in x for x in said) == 1
    assert not any("unplug loom A at" in x for x in said)


def test_without_a_plan_a_data_interface_is_still_unplugged() -> None:
    lost = replace(shipped_pack("teasel-four-doors"), circuit=None)
    said = back_lines(walked("teasel-four-doors", built("teasel-four-doors"), lost))
    assert sum("nplug the data interface OK-7N" in x for x in said) == 1


@pytest.mark.parametrize("name", FEW)
def test_without_a_plan_the_record_of_the_car_and_the_as_built_part_are_enough(name: str) -> None:
    lost = replace(shipped_pack(name), circuit=None)
    said = back_lines(walked(name, built(name), lost))
    assert any("battery negative off" in x for x in said)
    assert all(any(words in line for line in said) for words in READ)
    ground = next(n for n, x in enumerate(said) if "ground" in x and "take it off" in x)
    lines = [n for n, x in enumerate(said) if x.startswith("Every line lead unplugged")]
    assert all(n < ground for n in lines)
    assert bool(lines) == any(x.name.startswith("line lead") for x in built(name).conductors)
    for hazard in (x for part in shipped_parts(name).vehicle.access for x in part.hazards):
        planned = any(hazard in x for x in shipped_pack(name).revert)
        assert any(hazard in x for x in said) == planned


def test_the_walk_notices_a_joint_that_was_never_made_and_one_that_stays() -> None:
    name = "tansy-subwoofer"
    work = work_back_from(shipped_pack(name), shipped_parts(name), built(name))
    problem = back_problem(work)
    course = shortest(problem)
    gone = work_back_from(shipped_pack(name), shipped_parts(name), until(name, 0))
    said = list(broken_back(course, problem.begins, gone.joined, gone.parts))
    assert any("was never made" in each for each in said)
    more = MadeJoint(
        id="joint 900", place="radio", meets="A.9 blue and a lead", how="crimp", way_back="take off"
    )
    joined = replace(work.joined, otherwise=(more,))
    said = list(broken_back(course, problem.begins, joined, work.parts))
    assert said == ["joint 900 is undone 0 times"]


@pytest.mark.parametrize("name", FEW)
def test_the_customer_reads_of_every_pin_and_fuse_that_is_joined(name: str) -> None:
    pack, parts, whole = shipped_pack(name), shipped_parts(name), built(name)
    fewer = replace(whole, pins=whole.pins[1:], fuses=whole.fuses[:1])
    said = customer_lines_from(pack, parts, fewer)
    assert said[0] == pack.customer[0] and said[-1] == pack.customer[-1]
    assert [x for x in said if x.startswith("Joined to ")] == [
        f"Joined to {x.at}{f' {x.wire}' if x.wire else ''} ({x.purpose})." for x in whole.pins[1:]
    ]
    for fuse in whole.fuses:
        words = f"{fuse.name}, {fuse.rating}, {fuse.place}"
        assert sum(words in x for x in said) == (fuse in fewer.fuses)
    assert not any(x.startswith("Main fuse:") for x in said)
