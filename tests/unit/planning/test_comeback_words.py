"""What a reading says of the car agrees with the state that it is read in."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from comeback_jobs import TAP_PLANS, causes_in
from pack_jobs import HOUSE, shipped_pack, shipped_parts

from builder.planning.comeback.handed_over import HandedOver
from builder.planning.comeback.questions import all_readings
from builder.planning.comeback.visit import Visit
from builder.planning.words import TestState
from builder.planning.work_pack import BayTest

PLAYING: tuple[TestState, ...] = (
    "tuner", "other_source", "radio_on_tone", "engine", "auto_restart", "retained", "run",
)  # fmt: skip
"""States in which the radio or the car itself sounds."""
SAID: dict[str, tuple[TestState, ...]] = {
    r"\bmusic\b(?! off)": ("engine", "auto_restart"),
    r"\b(Hz|sine|tone)\b": ("radio_on_tone",),
    r"\bvolume (0|zero)\b": ("radio_on_zero", "accessory", "engine"),
    r"\b(plays|is heard)\b": PLAYING,
    r"\bengine on\b": ("engine", "auto_restart"),
    r"\basleep for\b": ("asleep",),
    r"\bplugs? off\b|\bplug \w+ off\b": ("battery_off", "unplugged"),
    r"\bspeaker leg\b": ("tuner", "battery_off"),
}
"""Words that only some states go with."""


def lines_of(name: str) -> Iterator[BayTest]:
    job = causes_in(name).job
    yield from (reading.test for reading in all_readings(job))
    yield from (test for test in job.pack.tests if not test.turn.startswith("proof"))


@pytest.mark.parametrize("name", TAP_PLANS)
def test_words_and_state_of_each_reading_agree(name: str) -> None:
    against = [
        (test.id, test.state, said)
        for test in lines_of(name)
        for said, states in SAID.items()
        if re.search(said, test.what) and test.state not in states
    ]
    assert against == []


@pytest.mark.parametrize("name", TAP_PLANS)
def test_what_is_lost_by_music_is_read_with_music_and_by_a_lamp_without(name: str) -> None:
    for test in lines_of(name):
        if test.turn == "loud":
            assert "loudest clean music" in test.what and test.state == "engine", test.id
        if " lamp across " in test.what:
            assert test.state == "radio_on_zero" and test.turn != "loud", test.id


def test_a_bad_joint_on_the_way_of_a_converter_is_read_with_a_lamp_across_it() -> None:
    readings = {each.test.id: each for each in all_readings(causes_in("tansy-subwoofer").job)}
    causes = causes_in("tansy-subwoofer")
    weak = [fault for fault in causes.faults if fault.kind == "weak"]
    feeding = [fault for fault in weak if "CVN-2A" in fault.what and "fuse" in fault.what]
    assert feeding
    for fault in feeding:
        finding = [
            x for x in readings.values()
            if " lamp across " in x.test.what and x.look(causes.standing[fault.id]) == "high"
        ]  # fmt: skip
        assert finding, fault.id


@pytest.mark.parametrize("name", ["sorrel-five-channels", "sedge-fronts"])
def test_each_function_behind_a_loom_is_asked_for_by_halves(name: str) -> None:
    job = causes_in(name).job
    asked = [each for each in all_readings(job) if each.test.id.startswith("works-")]
    functions = {link.purpose.rpartition(": ")[2] for link in job.passed_on}
    assert len(asked) == 2 * len(functions) - 2
    for function in functions:
        assert any(each.test.what.endswith(f": {function}") for each in asked)


TONE = "radio on, test tone, volume up from 0 to "


@pytest.mark.parametrize("name", TAP_PLANS)
def test_a_tone_is_played_as_the_course_plays_it(name: str) -> None:
    """The same volume, the same fader, the same ears: a comeback plays it in the same car."""
    pack = shipped_pack(name)
    texts = [part for step in pack.steps for part in step.text.split("; take tests")]
    asked = {text.partition(TONE)[2] for text in texts if TONE in text}
    visit = Visit(HandedOver(shipped_parts(name), pack, HOUSE), ())
    assert asked, "every course plays a tone"
    assert all(visit.hands.tone_at in each or each in visit.hands.tone_at for each in asked)
    assert pack.besides_tone in visit.hands.tone_at
    assert any(pack.besides_tone in each for each in asked)


def test_some_courses_say_where_the_fader_stands_and_others_to_cover_the_ears() -> None:
    """So that the test above is not about words that no job has."""
    said = " ".join(shipped_pack(name).besides_tone for name in TAP_PLANS)
    assert "fader all the way" in said and "ears covered" in said
