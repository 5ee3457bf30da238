"""What is fixed, pulled, bought and taken out; and what waits until somebody knows more."""

from __future__ import annotations

import re

import pytest
from circuit_checks import circuit_of
from pack_jobs import SHIPPED, shipped_pack, shipped_parts

from builder.planning.circuit.board import WRAP
from builder.planning.circuit.devices import held_holders, tied_holders
from builder.planning.circuit.hold_up import HOLD_UP_PARTS
from builder.planning.circuit.index import CircuitIndex
from builder.planning.views.names import element_words, is_at_fuse
from builder.rendering.pages.cover_banner import banner_words

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]
WAITING = [
    name
    for name in JOBS
    if any("which box" in asked for row in shipped_pack(name).tune for asked in row.asked)
]


@pytest.mark.parametrize("name", JOBS)
def test_every_fuse_holder_is_held_by_something(name: str) -> None:
    """A block and a loom hold theirs, a fuse position of the car its tap."""
    pack = shipped_pack(name)
    index = CircuitIndex(circuit_of(pack))
    fuses = [each for each in index.circuit.elements if each.kind == "fuse"]
    fixed, tied = held_holders(index), tied_holders(index)
    for fuse in fuses:
        tapped = any(is_at_fuse(index, joint) for joint in index.joints_of[fuse.ends[0]])
        mine = (fuse in fixed) + (fuse in tied)
        assert mine == (not fuse.loom and fuse.place != "distribution block" and not tapped)
    lines = [line for step in pack.steps for line in step.lines]
    (held,) = [test for test in pack.tests if test.id == "held"]
    (bought,) = [x for x in pack.parts if x.item == "set of fixings"] or [None]
    (out,) = [line for line in pack.revert if line.startswith("Take supply, ground")]
    for fuse in fixed:
        said = f"holder of the {fuse.id} ({fuse.place}) fixed so that it cannot move"
        assert sum(step.text.startswith(said) for step in pack.steps) == 1
        assert f"holder of the {fuse.id}" in held.what
        assert bought is not None and f"holder of the {fuse.id}" in bought.note
        assert element_words(fuse) in out and "what holds them undone" in out
    for fuse in tied:
        assert sum(f"holder of the {fuse.id} ({fuse.place}) tied" in line for line in lines) == 1


@pytest.mark.parametrize("name", JOBS)
def test_what_holds_each_device_is_bought_or_told(name: str) -> None:
    pack, job = shipped_pack(name), shipped_parts(name).job
    (held,) = [test for test in pack.tests if test.id == "held"]
    names = held.what.partition(" pulled by hand")[0].replace(f", {HOLD_UP_PARTS}", "")
    devices = names.split(", ")
    told = {each.device for each in job.mounts}
    notes = " ".join(x.note for x in pack.parts)
    for device in devices:
        called = "converter" if device == shipped_parts(name).converter.name else device
        assert called in told or device in notes, device


def test_a_box_that_nobody_knows_is_neither_fixed_nor_played() -> None:
    assert WAITING and "sorrel-five-channels" not in WAITING
    for name in WAITING:
        pack = shipped_pack(name)
        rows = [row for row in pack.tune if row.asked]
        for row in rows:
            fixes = [x for x in pack.steps if x.text.startswith(f"{row.speaker} (")]
            assert all("which box" in step.blocked for step in fixes), name
            on = [
                step
                for step in pack.steps
                if any(moved.what == f"speakers of {row.amplifier}" and moved.value == "on"
                       for moved in step.moves)
            ]  # fmt: skip
            assert on and all("which box" in step.blocked for step in on), name


@pytest.mark.parametrize("name", JOBS)
def test_a_plan_with_steps_that_wait_says_so_before_the_car_is_opened(name: str) -> None:
    pack = shipped_pack(name)
    waits = any(step.blocked for step in pack.steps)
    said = banner_words(pack)
    assert ("settle what the steps below wait for before the car is opened" in said) == waits
    assert said.startswith("It can be built")


def test_a_job_without_anything_open_is_finished() -> None:
    pack = shipped_pack("sorrel-five-channels")
    assert not [step.text for step in pack.steps if step.blocked]
    (box,) = [line for line in pack.parts if line.item == "subwoofer"]
    assert "sealed box" in box.note


@pytest.mark.parametrize("name", JOBS)
def test_a_ground_goes_last_of_all_on_the_way_back(name: str) -> None:
    lines = list(shipped_pack(name).revert)
    rings = [at for at, line in enumerate(lines) if line.startswith("ground point: take ")]
    outs = [at for at, line in enumerate(lines) if " out: every end out of its terminals" in line]
    assert all(at < rings[0] for at in outs if rings)
    grounds = {x.terminals[0].unit for x in circuit_of(shipped_pack(name)).units
               if any(t.name == "GND" for t in x.terminals)}  # fmt: skip
    for at in outs:
        of_ours = any(lines[at].lower().startswith(unit.lower()) for unit in grounds)
        assert ("its ground last" in lines[at]) == of_ours, lines[at]


@pytest.mark.parametrize("name", JOBS)
def test_the_way_back_names_all_that_came_and_closes_what_was_opened(name: str) -> None:
    pack = shipped_pack(name)
    index = CircuitIndex(circuit_of(pack))
    said = "\n".join(pack.revert)
    for unit in index.circuit.units:
        if unit.kind == "y_lead":
            assert unit.id in said
    untold = any(x.item == "set of fixings" for x in pack.parts)
    assert ("every screw hole and hole of the work" in said.lower()) == untold
    assert said.count("close the insulation") == said.count("two layers of self-sealing tape")
    bared = {
        end
        for joint in index.circuit.joints
        if joint.undone == "take_off" and joint.closed_by == WRAP
        for end in joint.joins
        if end in index.terminals and index.unit_of(end).kind == "plug"
    }
    told = [x.split() for x in pack.customer if "bared and joined to, not cut" in x]
    assert sum(1 if words[0] == "One" else int(words[0]) for words in told) == len(bared)
    assert all(end in said for end in bared), (bared, said)


@pytest.mark.parametrize("name", JOBS)
def test_two_wires_in_one_terminal_are_minded_where_they_are_joined(name: str) -> None:
    pack = shipped_pack(name)
    index = CircuitIndex(circuit_of(pack))
    for step in pack.steps:
        ends = [end for id in step.makes for end in index.joints[id].joins
                if index.joints[id].kind == "terminal" and end in index.terminals]  # fmt: skip
        both = {
            end for end in ends
            if sum(joint.kind == "terminal" for joint in index.joints_of[end]) > 1
        }  # fmt: skip
        assert ("two wires in one terminal" in step.caution) == bool(both), step.text


@pytest.mark.parametrize("name", JOBS)
def test_ties_and_what_is_tested_with_can_be_reckoned_from_the_list(name: str) -> None:
    pack = shipped_pack(name)
    (ties,) = [x for x in pack.parts if x.item == "cable tie"]
    counts = [int(each) for each in re.findall(r"(?:^|, )(\d+) (?:along|for|at)", ties.note)]
    assert sum(counts) == ties.quantity
    lamp = [x for x in pack.parts if x.item == "lamp of 21 W"]
    assert len(lamp) == any("21 W lamp" in step.text for step in pack.steps)
    rung = [x for x in pack.parts if x.item == "set of test contacts, wire and bar"]
    assert len(rung) == len(pack.looms)


@pytest.mark.parametrize("name", JOBS)
def test_a_grommet_is_bought_for_each_way_that_has_none(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    own = {each.name for each in parts.vehicle.passages if each.grommet == "own"}
    lines = {x.item: x for x in pack.parts if x.item in ("grommet", "sealant")}
    bought = lines["grommet"].note if "grommet" in lines else ""
    for one in parts.job.passes:
        assert (one.through in bought) == (one.seal == "grommet" and one.through not in own)
        assert one.through in lines["sealant"].note
    told = [line for step in pack.steps for line in step.lines if "that it still takes" in line]
    for line in told:
        assert line.endswith(("nobody measured", "over its insulation: measure the cable first"))
