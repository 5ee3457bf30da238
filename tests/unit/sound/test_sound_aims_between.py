"""Two outputs of an amplifier recorded together, against delay and polarity of their tune."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from sound_car import SHORT, Car, Pair, all_pass
from test_sound_aims import ROW

from builder.model.heard import Heard
from builder.model.recorded_sound import RecordedBetween, RecordedPair
from builder.model.sound import SpeakerChannel
from builder.pipeline.answers.sound_aims_between import TunedOutput, aims_between
from builder.sound.reading import Said, read_recording
from builder.sound.results import Refused

DOOR = replace(ROW, low_pass_hz=None, subsonic_hz=None, delay_at="door amp", set_at="door amp")


@cache
def recorded(late_ms=0.0, polarity=1, corner_hz=0.0):
    """What a recording says of two outputs, the second late, turned over, or with an all-pass."""
    filters = [all_pass(corner_hz, 0)] if corner_hz else []
    second = Pair(delay_s=late_ms / 1000, polarity=polarity, filters=filters)
    car = Car([Pair(), second], chain_corner_hz=2.0)
    return read_recording(car.recorded(), Said(SHORT.choice, (None, None), 2.0), None).between[0]


def pair(name, late_ms=0.0, heard=None):
    return SpeakerChannel(
        channel=name, driven_by="radio", band="full", delay_ms=late_ms, heard=heard
    )


def output(name, delay_ms=0.0, car_late_ms=0.0, polarity="normal", **said):
    row = replace(DOOR, speaker=name, delay_ms=delay_ms, polarity=polarity, **said)
    return TunedOutput(row, (pair("front-left", car_late_ms),))


def told(one, other, facts):
    return {each.what: each for each in aims_between(one, other, facts)}


def test_both_as_the_tune_has_them_pass():
    found = told(output("left"), output("right", 1.2), recorded(1.2))
    assert {what: each.passes for what, each in found.items()} == {"delay": True, "polarity": True}
    assert found["delay"].speaker == "right against left" and not found["delay"].change


def test_what_the_car_plays_late_is_part_of_the_aim():
    facts = recorded(1.2)
    undone = told(output("left", 1.2), output("right", 0.0, car_late_ms=1.2), facts)["delay"]
    assert undone.aim == "0.00 ms later" and undone.passes is False
    assert undone.change == "hold left back 1.20 ms more, at door amp"
    whole = told(output("left"), output("right", 0.0, car_late_ms=1.2), facts)["delay"]
    assert whole.passes is True


@pytest.mark.parametrize(
    ("aim_ms", "passes"), [(1.12, True), (1.28, True), (1.08, False), (1.32, False)]
)
def test_a_delay_passes_within_a_tenth_of_a_millisecond_either_way(aim_ms, passes):
    found = told(output("left"), output("right", aim_ms), recorded(1.2))["delay"]
    assert found.passes is passes and bool(found.change) is not passes


@pytest.mark.parametrize(
    ("left", "right", "change"),
    [
        (output("left"), output("right", 2.0), "hold right back 0.80 ms more, at door amp"),
        (output("left"), output("right", 0.9), "hold right back 0.30 ms less, at door amp"),
        (output("left"), output("right", 0.0), "hold left back 1.20 ms more, at door amp"),
        (output("left", delay_at=""), output("right", 0.0, delay_at=""), "right comes 1.20 ms too"),
    ],
)
def test_a_delay_elsewhere_says_what_waits_longer_or_less(left, right, change):
    assert told(left, right, recorded(1.2))["delay"].change.startswith(change)


@pytest.mark.parametrize("polarity", [1, -1])
@pytest.mark.parametrize("tuned", ["normal", "inverted"])
def test_a_polarity_passes_where_it_is_that_of_the_tune(polarity, tuned):
    facts = recorded(0.0, polarity)
    found = told(output("left"), output("right", polarity=tuned), facts)["polarity"]
    assert found.passes is ((polarity < 0) == (tuned == "inverted"))
    assert bool(found.change) is not found.passes
    assert found.passes or found.change.startswith("turn right over at door amp")


def test_a_pair_that_the_car_turns_over_is_right_once_its_channel_is_turned_back():
    two = RecordedBetween(
        first="front-left", second="front-right", plays="alike", polarity="inverted"
    )
    own = RecordedPair(channel="front-right", recorded_on="speaker")
    turned = pair("front-right", heard=Heard("rec", (), own, {"front-left": two}))
    left = output("left")
    back = replace(output("right", polarity="inverted"), carried=(turned,))
    assert told(left, back, recorded(0.0, 1))["polarity"].passes is True
    assert told(left, back, recorded(0.0, -1))["polarity"].passes is False
    as_it_was = replace(output("right"), carried=(turned,))
    assert told(left, as_it_was, recorded(0.0, -1))["polarity"].passes is True


def test_an_all_pass_is_looked_at_where_the_tune_has_one():
    without, with_one = output("left"), output("right", all_pass_order=1, all_pass_hz=300.0)
    assert told(without, with_one, recorded())["all-pass"].passes is True
    left_over = told(without, with_one, recorded(0.0, 1, 300.0))["all-pass"]
    assert left_over.passes is False and left_over.change.startswith("set the all-pass of right")
    assert "all-pass" not in told(without, output("right"), recorded())


def test_what_the_recording_cannot_say_is_not_told():
    facts = recorded()
    unknown = replace(
        facts, relation=replace(facts.relation, late_ms=Refused("far apart"), inverted=Refused("x"))
    )
    found = told(output("left"), output("right"), unknown)
    assert [each.passes for each in found.values()] == [None, None]
    assert found["delay"].change == "far apart"
    several = replace(output("right"), carried=(pair("front-left"), pair("front-right", 1.2)))
    assert told(output("left"), several, facts)["delay"].passes is None
