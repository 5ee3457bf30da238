"""The car's own sounds: one list, one state, and no line that a planned job cannot pass."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, shipped_pack, shipped_parts

from builder.planning.bay.close_tests import close_tests
from builder.planning.bay.kept_lines import heard_in, sounds_after, sounds_to_keep
from builder.planning.car.sound_kinds import is_call, is_cancellation
from builder.planning.work_pack import BayTest
from builder.rendering.pack_text import pack_text

TARN = "tarn-subwoofer"


def line(tests: tuple[BayTest, ...], id: str) -> BayTest:
    (found,) = [test for test in tests if test.id == id]
    return found


def test_a_sound_that_the_job_takes_away_is_not_asked_to_be_as_before() -> None:
    pack = shipped_pack(TARN)
    assert "after-noise-cancellation" not in {test.id for test in pack.tests}
    drone = line(pack.tests, "cancellation-drone")
    assert "nothing from the subwoofer" in drone.what and drone.state == "engine"
    assert "was not there" not in drone.what  # the engine's own drone is heard now


def test_the_way_back_reads_the_cancellation_with_the_engine_on_and_says_drone_once() -> None:
    pack = shipped_pack(TARN)
    (back,) = [each for each in pack.revert if "r/min" in each]
    assert back.lower().startswith("engine on: ready lamp on") and "noise cancellation" in back
    assert "as it was before work began, no drone" in back
    assert line(pack.tests, "before-noise-cancellation").state == "engine"


def test_a_cancellation_that_no_record_names_as_a_sound_still_has_its_line() -> None:
    parts = shipped_parts(TARN)
    named = tuple(s for s in parts.vehicle.sounds if not is_cancellation(s.sound))
    bare = replace(parts, vehicle=replace(parts.vehicle, protected_sounds=named))
    found = {test.id for test in sounds_after(bare)}
    assert "cancellation-drone" in found and "after-noise-cancellation" not in found
    assert "cancellation-drone" not in {test.id for test in sounds_after(parts)}


def test_the_call_speaks_in_its_self_test_before_and_after_and_is_never_placed() -> None:
    pack = shipped_pack(TARN)
    for id in ("before-emergency-call-voice", "emergency-call"):
        assert line(pack.tests, id).state == "run"
        assert "self-test; never place a call" in line(pack.tests, id).what
    assert len([test for test in pack.tests if is_call(test.what)]) == 2


def test_a_warning_of_a_fault_is_a_lamp_and_nothing_to_listen_to() -> None:
    before = line(shipped_pack(TARN).tests, "before-pedestrian-sounder-fault").what
    assert before.startswith("look at it") and "lamp or message" in before


@pytest.mark.parametrize("name", [TARN, "leto-four-doors", "dash-converter", "teasel-subwoofer"])
def test_a_sound_is_met_in_one_state_before_and_after(name: str) -> None:
    parts, pack = shipped_parts(name), shipped_pack(name)
    after = {test.id: test for test in close_tests(parts, pack.plan.turn_on, HOUSE)}
    before = {test.id: test for test in pack.tests if test.id.startswith("before-")}
    for sound in sounds_to_keep(parts):
        state, how = heard_in(parts, sound)
        met = [t for t in (*before.values(), *after.values()) if f"{sound}{how}" in t.what]
        assert met and {test.state for test in met} == {state}


def test_cover_sheet_and_customer_name_the_same_sounds() -> None:
    parts, pack = shipped_parts(TARN), shipped_pack(TARN)
    (told,) = [each for each in pack.customer if each.startswith("As before: ")]
    kept = told.removeprefix("As before: ").rstrip(".")
    assert f"must sound as before: {kept}\n" in pack_text(pack, parts, ())
    assert set(kept.split(", ")) == set(sounds_to_keep(parts, cancelling=False))
