"""A result stays with what was measured, whatever is added to the car or taken from it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from each_case import each
from hypothesis import given, settings
from hypothesis import strategies as st
from pack_jobs import SHIPPED, amplifier, shipped_pack, shipped_parts, unadvised_pack
from samples import many, some
from test_pack_properties import jobs

from builder.findings import DataPath
from builder.model.plugs import Pin
from builder.planning.bay.ids import numbered, reading_id, speakable
from builder.planning.bay.line import tick
from builder.planning.plan import ProofReading
from builder.planning.work_pack import BayTest, JobParts, WorkPack

ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
MODEST = settings(max_examples=many(40), deadline=None)


def measured(test: BayTest) -> tuple[Any, ...]:
    """What a result under this id is a result of: everything but words and limits."""
    reading = test.reading
    place = reading and (
        reading.plug, reading.cavity, reading.fuse_position, reading.against, reading.load,
    )  # fmt: skip
    return test.phase, test.state, test.quantity, test.unit, place


def stays_put(before: WorkPack, after: WorkPack) -> int:
    """How many lines both sheets have; each of them is about the same thing on both."""
    was = {test.id: measured(test) for test in before.tests}
    now = {test.id: measured(test) for test in after.tests}
    both = was.keys() & now.keys()
    assert {test: was[test] for test in both} == {test: now[test] for test in both}
    return len(both)


def without_pin(parts: JobParts, gone: Pin) -> JobParts:
    plugs = tuple(
        replace(plug, pins=tuple(pin for pin in plug.pins if pin is not gone))
        for plug in parts.vehicle.plugs
    )
    return replace(parts, vehicle=replace(parts.vehicle, plugs=plugs))


def all_pins(parts: JobParts) -> list[Pin]:
    return [pin for plug in parts.vehicle.plugs for pin in plug.pins]


# -- the shape of an id -----------------------------------------------------------------------


@pytest.mark.parametrize("name", SHIPPED)
def test_every_line_of_a_shipped_sheet_has_a_short_name_of_its_own(name: str) -> None:
    ids = [test.id for test in shipped_pack(name).tests]
    assert len(set(ids)) == len(ids)
    assert all(ID.fullmatch(one) and len(one) <= 60 for one in ids)
    assert not any(re.search(r"-[0-9a-f]{6}$", one) for one in ids)  # none had to be told apart


@MODEST
@given(jobs())
def test_every_line_of_any_sheet_has_a_name_of_its_own(parts: JobParts) -> None:
    ids = [test.id for test in unadvised_pack(parts).tests]
    assert len(set(ids)) == len(ids)
    assert all(ID.fullmatch(one) for one in ids)


@given(st.text(max_size=200))
def test_a_name_can_be_typed_on_any_keyboard(text: str) -> None:
    said = speakable("before", text)
    assert ID.fullmatch(said) and len(said) <= 60


def test_long_names_that_begin_alike_differ() -> None:
    one, two = (speakable("before", "chime " * 20, end) for end in ("left", "right"))
    assert one != two


def test_accents_are_dropped_rather_than_the_letter() -> None:
    assert speakable("Türgong größer") == "turgong grosser".replace(" ", "-")


def test_a_name_of_sixty_marks_is_whole_and_a_longer_one_ends_in_a_sum() -> None:
    assert speakable("a" * 60) == "a" * 60
    longer = speakable("a" * 61)
    assert len(longer) == 60 and longer.startswith("a" * 53 + "-")


def reading(**changed: Any) -> ProofReading:
    made = ProofReading(
        "A", "7", None, "retained", "accessory", "battery_negative", "none", "dc_v", 12.0, None,
        "how", "settles", "",
    )  # fmt: skip
    return replace(made, **changed)


@pytest.mark.parametrize(
    ("changed", "name"),
    [
        ({}, "a-7-acc"),
        ({"against": "body"}, "a-7-acc"),
        ({"state": "radio_on_zero", "load": "50ma"}, "a-7-radio-on-50ma"),
        ({"load": "lamp_0.4a"}, "a-7-acc-lamp-0-4a"),
        ({"state": "unplugged", "quantity": "ohm", "against": "A.8"}, "a-7-ohms-to-a-8"),
        ({"state": "battery_off", "quantity": "ohm", "against": "body"},
         "a-7-battery-off-ohms-to-body"),
        ({"plug": None, "cavity": None, "fuse_position": "F14"}, "f14-acc"),
        ({"quantity": "ac_v", "state": "radio_on_tone", "against": "A.8"}, "a-7-tone-ac-to-a-8"),
    ],
)  # fmt: skip
def test_a_reading_is_named_by_where_and_when(changed: dict[str, Any], name: str) -> None:
    assert reading_id(reading(**changed)) == name


def test_the_function_of_a_pin_is_not_what_is_measured_there() -> None:
    assert reading_id(reading(function="accessory")) == reading_id(reading(function="retained"))


# -- two lines that would be called alike -----------------------------------------------------


def test_two_lines_of_one_name_are_both_told_apart() -> None:
    alone = tick("heat", "closing", "one thing", "run", "why")
    other = tick("heat", "closing", "another thing", "run", "why")
    one, two = numbered([alone, other])
    assert {one.id, two.id}.isdisjoint({"heat"}) and one.id != two.id
    assert numbered([alone])[0].id == "heat"
    assert [line.id for line in numbered([other, alone])] == [two.id, one.id]


# -- what becomes of results ------------------------------------------------------------------


@pytest.mark.parametrize("name", SHIPPED)
def test_a_pin_taken_from_the_car_moves_no_result(name: str) -> None:
    parts, before = shipped_parts(name), shipped_pack(name)
    for pin in some(all_pins(parts), SHIPPED.index(name)):
        stays_put(before, unadvised_pack(without_pin(parts, pin)))


def tap_plans() -> list[str]:
    return [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def idle(pin: Pin) -> bool:
    """Whether it carries no pair, and no dip that a hold-up is sized by."""
    dips = any(reading.state == "auto_restart" for reading in pin.readings)
    return not pin.channel and not dips


def read_on(pack: WorkPack, parts: JobParts) -> set[DataPath]:
    """The pins that a line of the sheet proves: those of an interface are among them."""
    read = {(test.reading.plug, test.reading.cavity) for test in pack.tests if test.reading}
    return {
        pin.path for plug in parts.vehicle.plugs for pin in plug.pins
        if (plug.id, pin.cavity) in read
    }  # fmt: skip


@each("name", tap_plans)
def test_a_pin_nobody_uses_leaves_every_line_where_it_was(name: str) -> None:
    parts, before = shipped_parts(name), shipped_pack(name)
    used = set(before.plan.used_paths) | read_on(before, parts)
    spare = next(pin for pin in all_pins(parts) if pin.path not in used and idle(pin))
    after = unadvised_pack(without_pin(parts, spare))
    assert stays_put(before, after) == len(before.tests)


def with_a_pin_in_front(parts: JobParts) -> JobParts:
    """An unread run wire, below what switches on, that the record names before every other pin.

    Not in a plug that goes into a loom: that would have to pass it on.
    """
    looms = {each.plug for each in parts.job.looms}
    first = next(plug for plug in parts.vehicle.plugs if plug.id not in looms)
    path = (*first.path, "pins", len(first.pins))
    pin = replace(first.pins[0], cavity="99", function="run", channel=None, leg=None,
                  readings=(), path=path)  # fmt: skip
    longer = replace(first, pins=(pin, *first.pins))
    plugs = tuple(longer if plug is first else plug for plug in parts.vehicle.plugs)
    return replace(parts, vehicle=replace(parts.vehicle, plugs=plugs))


@pytest.mark.parametrize("name", SHIPPED)
def test_a_pin_added_in_front_moves_no_result(name: str) -> None:
    before = shipped_pack(name)
    after = unadvised_pack(with_a_pin_in_front(shipped_parts(name)))
    if before.kind == "tap_plan":
        assert stays_put(before, after) == len(before.tests)
    else:
        stays_put(before, after)


@pytest.mark.parametrize("name", SHIPPED)
def test_an_amplifier_added_in_front_adds_lines_and_moves_none(name: str) -> None:
    parts, before = shipped_parts(name), shipped_pack(name)
    first = replace(parts.job.amplifiers[0], name="an extra amp")
    what = replace(parts.job, amplifiers=(first, *parts.job.amplifiers))
    amplifiers = {"an extra amp": amplifier("amn-600"), **parts.amplifiers}
    after = unadvised_pack(replace(parts, job=what, amplifiers=amplifiers))
    assert stays_put(before, after) == len(after.tests and before.tests)
    if after.kind == "tap_plan":
        added = {test.id for test in after.tests} - {test.id for test in before.tests}
        own = added - {"hold-up-charged"}  # one that a restart drops makes the job hold it up
        assert own and all(one.startswith("an-extra-amp-") for one in own)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_speaker_taken_out_moves_no_result(name: str) -> None:
    parts, before = shipped_parts(name), shipped_pack(name)
    what = replace(parts.job, speakers=parts.job.speakers[1:])
    stays_put(before, unadvised_pack(replace(parts, job=what)))


@MODEST
@given(jobs(), st.data())
def test_whatever_pins_go_no_result_moves(parts: JobParts, data: st.DataObject) -> None:
    before = unadvised_pack(parts)
    gone = data.draw(st.lists(st.sampled_from(all_pins(parts)), max_size=3))
    fewer = parts
    for pin in gone:
        fewer = without_pin(fewer, pin)
    stays_put(before, unadvised_pack(fewer))


@MODEST
@given(jobs(), jobs())
def test_no_name_means_two_things_in_two_jobs(one: JobParts, two: JobParts) -> None:
    stays_put(unadvised_pack(one), unadvised_pack(two))
