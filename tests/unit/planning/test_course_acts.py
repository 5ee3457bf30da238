"""What a job says of its car is a step of its work: ways through, devices held, seats over them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.model.job.treatments import Treatments
from builder.model.sound import LineLevel
from builder.planning.job.make_pack import make_pack
from builder.planning.levels.loudest_step import loudest_step
from builder.planning.sheet_rows import Step
from builder.planning.work_pack import WorkPack

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def at(pack: WorkPack, begins: str) -> int:
    """The number of the one step that begins so."""
    (step,) = [each for each in pack.steps if each.text.startswith(begins)]
    return step.number


def step_of(pack: WorkPack, test: str) -> Step:
    (step,) = [each for each in pack.steps if test in each.tests]
    return step


@pytest.mark.parametrize("name", [name for name in JOBS if shipped_parts(name).job.passes])
def test_a_cable_goes_through_before_it_is_cut_and_the_way_is_closed_and_looked_at(
    name: str,
) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    for one in parts.job.passes:
        through = at(pack, f"{one.through}: take {' and '.join(one.carries)} through")
        closed = at(pack, f"{one.through} closed: ")
        (line,) = [each for each in pack.tests if each.id == "held"]
        assert f"{one.through} closed, no bare edge" in line.what
        assert (", drip loop" in line.what) == (one.drip_loop == "yes")
        assert through < at(pack, "lay every cable") < closed < step_of(pack, line.id).number
        (passage,) = [each for each in parts.vehicle.passages if each.name == one.through]
        step = pack.steps[through - 1]
        assert passage.where in step.lines[0]
        assert all(hazard in step.caution for hazard in passage.hazards)
        assert step.blocked == "" and step.gate.startswith("no bare edge")


def test_a_way_that_nobody_decided_how_to_close_lets_nothing_through() -> None:
    parts = shipped_parts("tansy-subwoofer")
    (one,) = parts.job.passes
    job = replace(parts.job, passes=(replace(one, seal="unknown"),))
    pack = make_pack(replace(parts, job=job), defaults=HOUSE)
    step = pack.steps[at(pack, f"{one.through}: take") - 1]
    assert step.blocked.startswith("nobody decided how edge and water are kept off")


@pytest.mark.parametrize("name", JOBS)
def test_every_device_is_fixed_by_a_step_and_pulled_by_hand(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    mounts = {mount.device: mount for mount in parts.job.mounts}
    new = [speaker.name for speaker in parts.job.speakers if speaker.lead is not None]
    (held,) = [test for test in pack.tests if test.id == "held"]
    assert pack.circuit is not None
    kinds = ("interface", "distribution", "driver", "turn_on_load", "battery_joiner")
    others = [unit.id for unit in pack.circuit.units if unit.kind in kinds]
    for device in ("converter", *parts.amplifiers, *new, *others):
        shown = parts.converter.name if device == "converter" else device
        fixed = f"{device}: " if device in mounts else f"{shown} "
        steps = [
            step
            for step in pack.steps
            if step.text.startswith(fixed)
            and (device in mounts or "fixed so that it cannot move" in step.text)
        ]
        assert len(steps) == 1, device
        assert device in mounts or steps[0].caution.startswith("no screw")
        assert steps[0].number < at(pack, "lay every cable")
        assert shown in held.what
    assert step_of(pack, held.id).phase == "build"


@pytest.mark.parametrize("name", ["teasel-four-doors", "sedge-fronts", "rook-second-battery"])
def test_a_seat_over_the_work_is_moved_through_its_whole_travel(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    over = [part for part in parts.vehicle.access if part.kind == "seat"]
    lines = [test for test in pack.tests if test.id.endswith("-travel")]
    assert lines and all(any(line.what.startswith(x.name) for x in over) for line in lines)
    lay = pack.steps[at(pack, "lay every cable") - 1]
    for line in lines:
        (seat,) = [each for each in over if line.what.startswith(each.name)]
        assert (seat.travel_mm is None) == ("mm" not in line.what)
        assert any(seat.name in each for each in lay.lines)
        assert step_of(pack, line.id).number > max(
            step.number for step in pack.steps if any(each.what == seat.name for each in step.moves)
        )


@pytest.mark.parametrize(
    ("name", "begins", "lines"),
    [
        ("tansy-two-coils", "CVN-6S summing: set its input switches to floating", ["driven"]),
        ("tansy-two-coils", "CVN-6S summing: set its sums",
         ["out 1: in 1 and in 2 added (rear left and rear right)", "level after the sum"]),
        ("rook-two-amplifiers", "CVN-6S summing: set its sums",
         ["out 1: in 1 alone (front left)", "out 5: in 1 and in 2 added", "why: "]),
        ("tansy-subwoofer", "CVN-2A: waking by the bias of a pair and by sound off", ["A.7"]),
        ("lovage-mid-subwoofer", "no turn-on wire: set CVN-2A to wake by itself", []),
    ],
)  # fmt: skip
def test_what_the_plan_relies_on_is_set_on_the_converter_before_power(
    name: str, begins: str, lines: list[str]
) -> None:
    pack = shipped_pack(name)
    number = at(pack, begins)
    assert number < at(pack, "first a 21 W lamp")
    assert pack.steps[number - 1].phase == "build"
    said = "\n".join(pack.steps[number - 1].lines)
    assert all(each in said for each in lines)


def test_a_converter_that_adds_nothing_and_floats_has_nothing_of_it_to_set() -> None:
    steps = shipped_pack("tansy-subwoofer").steps
    assert not any("sums" in step.text or "floating" in step.text for step in steps)


def test_the_loudest_clean_step_is_one_figure_on_every_sheet() -> None:
    for name in JOBS:
        pack, parts = shipped_pack(name), shipped_parts(name)
        levels = [each.level for each in parts.vehicle.channels if each.level]
        known = [each.at_volume_step for each in levels if each.at_volume_step is not None]
        finds = [test for test in pack.tests if test.id == "loudest-clean-step"]
        said = f"step {min(known)}" if known else "step ____"
        words = f"step {min(known)}, the loudest" if known else "as loudest-clean-step finds it"
        assert len(finds) == (not known), name
        assert sum(line.startswith(f"Loudest clean volume: {said}") for line in pack.customer) == 1
        tones = [step.text for step in pack.steps if "test tone, volume up from 0 to " in step.text]
        assert tones and all(words in text for text in tones), name
        for ends, before in (("-pair-level", "tone at "), ("-gain", "radio at ")):
            read = [test.what for test in pack.tests if test.id.endswith(ends)]
            at = f"{before}step {min(known)}" if known else f"{before}the step found"
            assert read and all(at in what for what in read), name
        for line in finds:  # before anything that is read at it
            first = min(x.number for x in pack.tests if x.id.endswith(("-pair-level", "-gain")))
            assert line.number < first


def test_a_line_feed_counts_by_the_step_of_its_own_level() -> None:
    parts = shipped_parts("tansy-subwoofer")
    channels = {each.channel: each for each in parts.vehicle.channels}
    feed = replace(
        channels["front-left"], line_level=LineLevel(clean_max_v_rms=2.6, at_volume_step=21)
    )
    told = {**channels, "front-left": feed}
    car = replace(parts.vehicle, channels=tuple(told.values()))
    job = replace(parts.job, treatments=Treatments(front_left="line_tap"))
    assert loudest_step(car, parts.job) == 34
    assert loudest_step(car, job) == 21


def test_no_line_asks_for_what_hurts_a_hand_a_speaker_or_a_good_job() -> None:
    """A hand stays out of a running engine bay, a full tone out of speakers that a person hears,
    and minus legs that meet at the body are not asked to stand apart."""
    for name in JOBS:
        lines = {test.id: test.what for test in shipped_pack(name).tests}
        assert "then engine off, key out: a hand" in lines["heat"]
        for each in ("sum-phase", "balance-and-fader"):
            assert lines.get(each, "volume low, ").startswith("volume low, ")
        grounded = shipped_parts(name).vehicle.radio.outputs == "common_ground"
        assert ("minus legs meet at the body" in lines["signal-legs"]) == grounded
    assert any(shipped_parts(name).vehicle.radio.outputs == "common_ground" for name in JOBS)


def test_a_board_goes_in_before_what_it_holds_and_leaves_before_its_hole_is_closed() -> None:
    pack = shipped_pack("tansy-two-coils")
    assert at(pack, "hole of 6 mm") < at(pack, "board: bolted to") < at(pack, "sub amp: screwed to")
    order = [
        next(i for i, line in enumerate(pack.revert) if line.startswith(begun))
        for begun in ("Sub amp (", "Board out: its bolts out of", "Hole in right luggage side")
    ]
    assert order == sorted(order)
    items = [line.item for line in pack.parts]
    assert items.count("board") == 1 == items.count("bolts of the board")
    assert "set of bolts" not in items  # told at the hole that they go into
    assert "blind plug for a hole of 6 mm" in items


def test_a_board_named_last_is_still_fixed_first() -> None:
    parts = shipped_parts("tansy-two-coils")
    job = replace(parts.job, mounts=parts.job.mounts[::-1])
    pack = make_pack(replace(parts, job=job), defaults=HOUSE)
    assert at(pack, "board: bolted to") < at(pack, "converter: screwed to")
