"""What is bought is used by a step, what is moved is set again, what is said adds up."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.model.names import STATE_NAMES
from builder.planning.course.hands import asleep_wait_min
from builder.planning.sheet_rows import Step
from builder.planning.work_pack import BayTest, WorkPack
from builder.rendering.pages.job_steps import hands_time, has_unknown_wait, step_groups

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def one(pack: WorkPack, begins: str) -> Step:
    (step,) = [each for each in pack.steps if each.text.startswith(begins)]
    return step


def line(pack: WorkPack, id: str) -> BayTest:
    (test,) = [each for each in pack.tests if each.id == id]
    return test


def read_in(pack: WorkPack, id: str) -> Step:
    (step,) = [each for each in pack.steps if id in each.tests]
    return step


@pytest.mark.parametrize("name", JOBS)
def test_every_small_part_that_is_bought_has_a_step_and_leaves_nothing_bare(name: str) -> None:
    pack = shipped_pack(name)
    bought = {part.item for part in pack.parts}
    tied = [step for step in pack.steps if step.text.startswith("tie the cables")]
    assert len(tied) == 1 and "cable tie" in " ".join(bought)
    assert one(pack, "label every piece").number < tied[0].number < read_in(pack, "held").number
    painted = [step for step in pack.steps if step.text.startswith("paint or grease")]
    assert len(painted) == ("paint or grease" in bought)
    for step in painted:
        assert read_in(pack, "ground-ohms").number < step.number
        for at in step.lines:
            place = at.removeprefix("at: ")
            assert any(
                f"{place}: bare metal painted" in each.replace(place.capitalize(), place)
                for each in pack.revert
            )


@pytest.mark.parametrize("name", JOBS)
def test_the_ground_point_is_chosen_and_written_down_before_a_cable_is_cut(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    chosen = [step for step in pack.steps if step.text.startswith("ground point chosen")]
    assert len(chosen) == (parts.job.supply.ground_point != "battery_post")
    for step in chosen:
        assert "write it down here ____" in step.lines[0]
        assert step.gate == "somebody has looked behind it"
        assert step.number < one(pack, "lay every cable").number


@pytest.mark.parametrize("name", SHIPPED)
def test_the_strap_is_read_at_metal_that_lies_open_with_the_trim_on(name: str) -> None:
    straps = [test for test in shipped_pack(name).tests if test.id == "strap"]
    assert all("lies open with the trim on" in test.what for test in straps)


@pytest.mark.parametrize("name", SHIPPED)
def test_what_fell_with_the_battery_is_set_again_before_the_car_is_handed_over(name: str) -> None:
    pack = shipped_pack(name)
    if not pack.steps:
        return
    again = next(step for step in pack.steps if "window positions set again" in step.text)
    lamp = read_in(pack, "restraint-lamp")
    assert lamp.number < again.number < pack.steps[-1].number


@pytest.mark.parametrize("name", SHIPPED)
def test_a_step_that_reads_says_in_which_state(name: str) -> None:
    pack = shipped_pack(name)
    states = {test.id: test.state for test in pack.tests}
    for step in pack.steps:
        for state in {states[id] for id in step.tests} - {"step"}:
            assert STATE_NAMES[state] in step.text.partition("take test")[2], step.text  # type: ignore[index]


@pytest.mark.parametrize("name", JOBS)
def test_a_tone_says_that_the_radio_is_on(name: str) -> None:
    for step in shipped_pack(name).steps:
        assert step.text.count("test tone, volume") == step.text.count(
            "radio on, test tone, volume"
        )


@pytest.mark.parametrize("name", SHIPPED)
def test_the_whole_time_is_the_sum_of_its_printed_parts(name: str) -> None:
    steps = shipped_pack(name).steps
    parts = [minutes(group.title.rpartition(", ")[2]) for group in step_groups(steps)]
    assert minutes(hands_time(steps)) == sum(parts) if steps else not parts


def minutes(said: str) -> int:
    """`about 2 h 35 min` in minutes."""
    words = said.removeprefix("about ").split()
    factors = {"h": 60, "min": 1}
    return sum(int(n) * factors[unit] for n, unit in zip(words[::2], words[1::2], strict=True))


@pytest.mark.parametrize("name", JOBS)
def test_the_hour_that_a_line_asks_for_is_counted_and_said(name: str) -> None:
    pack = shipped_pack(name)
    for step in pack.steps:
        if any(each.value == "asleep" for each in step.moves):
            assert step.takes_min >= HOUSE.asleep_proved_min
            assert f"nobody in it for {HOUSE.asleep_proved_min:g} min" in step.text


def test_a_wire_that_is_off_with_the_key_waits_less_than_a_constant() -> None:
    tests = shipped_pack("teasel-four-doors").tests
    constant = line(shipped_pack("teasel-four-doors"), "a-13-asleep")
    assert constant.reading is not None and constant.reading.function == "constant"
    off = replace(constant, reading=replace(constant.reading, function="accessory"))
    assert asleep_wait_min([off], HOUSE) == HOUSE.asleep_min
    assert asleep_wait_min([off, constant], HOUSE) == HOUSE.asleep_proved_min
    assert asleep_wait_min(tests, HOUSE) == HOUSE.asleep_proved_min


def test_a_sound_is_heard_alike_before_and_after() -> None:
    for name in ("leto-four-doors", "dash-converter"):
        pack = shipped_pack(name)
        before = line(pack, "before-lights-left-on-warning")
        after = line(pack, "after-lights-left-on-warning")
        assert before.state == after.state == "retained"
        assert all("driver's door opened" in test.what for test in (before, after))


def test_the_turn_on_wire_is_read_while_the_key_off_sound_plays_before_anything_is_cut() -> None:
    pack = shipped_pack("leto-four-doors")
    test = line(pack, "a-7-lights-left-on-warning")
    assert (test.state, test.low) == ("retained", 7.0)
    cut = min(step.number for step in pack.steps if "cut each wire" in step.text)
    assert read_in(pack, test.id).number < cut
    only_beside = shipped_pack("dash-converter")
    assert not [test for test in only_beside.tests if test.id == "a-7-lights-left-on-warning"]


@pytest.mark.parametrize("name", JOBS)
def test_a_cone_behind_a_grille_has_a_way_that_hands_can_do(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    own = any(speaker.existing for speaker in parts.job.speakers)
    pulsed = [test for test in pack.tests if "the cone moves out" in test.what]
    hidden = [test for test in pulsed if "behind a grille" in test.what]
    assert hidden == [test for test in pulsed if test.what.startswith("factory speaker")]
    assert not hidden or own


def test_a_step_that_is_found_below_the_plan_is_no_pass() -> None:
    pack = shipped_pack("teasel-four-doors")
    found, pair = line(pack, "loudest-clean-step"), line(pack, "front-left-pair-level")
    assert (found.low, found.high, found.quantity) == (pair.low, pair.high, "ac_v")
    assert "plan again" in found.why


@pytest.mark.parametrize("name", JOBS)
def test_a_wait_that_nobody_recorded_is_not_said_to_be_counted(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    waits = any(each.value == "waited" for step in pack.steps for each in step.moves)
    unknown = parts.vehicle.safety.restraint_wait_min is None
    assert has_unknown_wait(pack.steps) == (waits and unknown)


def test_a_gain_says_where_the_fader_stands_and_which_of_the_car_s_speakers_sound_too() -> None:
    """A tone at the loudest clean step plays at every speaker that still hangs on the car."""
    for name in JOBS:
        pack, parts = shipped_pack(name), shipped_parts(name)
        broken = {feed.channel for feed in pack.plan.feeds if feed.treatment == "intercept"}
        broken |= {each.channel for each in parts.job.speakers if each.existing}
        fed = {feed.channel.partition("-")[0] for feed in pack.plan.feeds}
        kept = [each.channel for each in parts.vehicle.channels if each.channel not in broken]
        other = [each for each in kept if each.partition("-")[0] in {"front", "rear"} - fed]
        for step in pack.steps:
            if any("gain" in id for id in step.tests):
                one_end = bool(other) and len(fed) == 1 and fed <= {"front", "rear"}
                assert ("fader all the way to the" in step.text) == one_end
                other = other if one_end else []
                assert ("sound too: ears covered" in step.text) == (set(kept) > set(other))
        noted, again = one(pack, "write down faults"), line_of_steps(pack, "radio presets, bal")
        assert "code, balance, fader and tone" in noted.text and "set again" in again.text


def line_of_steps(pack: WorkPack, holds: str) -> Step:
    return [each for each in pack.steps if holds in each.text][-1]


@pytest.mark.parametrize("name", JOBS)
def test_what_is_judged_by_ear_is_not_played_at_the_loudest_step(name: str) -> None:
    pack = shipped_pack(name)
    step = read_in(pack, "balance-and-fader")
    assert "volume up from 0" in step.text and "loudest clean" not in step.text


@pytest.mark.parametrize("name", JOBS)
def test_parts_that_hang_on_their_leads_are_tied_and_pulled(name: str) -> None:
    """A capacitor on two leads breaks them: a hold-up is held by a step and tried by a line."""
    pack = shipped_pack(name)
    tied = [step for step in pack.steps if step.text.startswith("parts of the hold-up")]
    assert len(tied) == (pack.hold_up is not None)
    assert ("parts of the hold-up" in line(pack, "held").what) == (pack.hold_up is not None)
    for step in tied:
        joined = [each for each in pack.steps if any("hold-up" in text for text in each.lines)]
        assert max(each.number for each in joined) < step.number < read_in(pack, "held").number


def test_what_the_car_s_own_fuse_gives_is_not_taken_for_ours() -> None:
    pack = shipped_pack("teasel-subwoofer")
    (first, behind) = pack.turn_on_draws
    assert first.limit == "the car's own fuse there" and behind.limit == ""
    (why,) = [each for each in pack.because if each.decision == "F14 switches CVN-2A"]
    assert "8 mA of 10 A (the car's own fuse there)" in why.because
    assert any("fuse of the turn-on at F14: 1 A" in text for x in pack.steps for text in x.lines)
    assert "whether F14 is an accessory supply" in line(pack, "f14-acc").why


def test_an_engine_that_starts_by_itself_is_not_asked_for_by_key_and_pedal() -> None:
    for name in JOBS:
        pack, parts = shipped_pack(name), shipped_parts(name)
        hybrid, whine = parts.vehicle.features.hybrid == "yes", line(pack, "whine").what
        assert ("maintenance mode" in whine) == hybrid != ("700 to 3000" in whine)
        runs = [x for x in pack.steps if any(y.value == "engine" for y in x.moves)]
        assert runs and all(("ready lamp on" in x.text) == hybrid for x in runs)
    assert shipped_parts("tarn-subwoofer").vehicle.features.hybrid == "yes"


@pytest.mark.parametrize("name", JOBS)
def test_the_work_ends_with_the_customer_and_the_key_off(name: str) -> None:
    """What the radio lost is set again as it was noted; no turn of the key is left over for it."""
    steps = shipped_pack(name).steps
    assert steps[-1].text == "go through the customer's sheet with the customer"
    assert {each.what: each.value for each in steps[-1].stands}["key"] == "off"


@pytest.mark.parametrize("name", JOBS)
def test_nothing_is_said_of_the_main_fuse_before_it_has_a_holder(name: str) -> None:
    pack = shipped_pack(name)
    laid = next(step.number for step in pack.steps if step.text.startswith("lay every cable"))
    assert not any("main fuse" in step.text for step in pack.steps[: laid - 1] if step.moves)
    later = [step for step in pack.steps[laid:] if step.text.endswith("battery negative on")]
    assert all("main fuse still out" in x.text for x in later if "the car's" not in x.text)
