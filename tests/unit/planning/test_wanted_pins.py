"""What to measure first: what opens most plans a minute, then what plans rest on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.planning.job.wanted_pins import Standing, wanted_pins
from builder.planning.plan import Plan, ProofReading, TurnOn

GOOD = Standing("speaker", "check first", 0.35, "readings by a second contributor")
PROVEN = Standing("speaker", "proven", 0.0, "")


def reading(cavity, state="run", load="none"):
    return ProofReading(
        "A", cavity, None, "speaker", state, "body", load, "dc_v", 5, 8, "how", "what", ""
    )


def plan(kind, *readings):
    nothing = TurnOn(None, "none", None, None, None, None, None, None, "")
    return Plan(kind, "car", "cv", "", "good", (), (), (), nothing, (), (), tuple(readings), (), ())


def wanted(*plans, standing=None):
    places = standing or {f"A.{n}": GOOD for n in range(1, 6)}
    return wanted_pins("car", "A car", plans, places, minutes)


def minutes(readings):
    """A quarter of an hour to get at it and a minute a reading; asleep one waits for it."""
    waits = any(reading.state == "asleep" for reading in readings)
    return 15.0 + 20.0 * waits + len(readings)


def test_the_pin_that_opens_more_plans_comes_first():
    both, one = reading("1"), reading("2")
    found = wanted(plan("probe_plan", both), plan("probe_plan", both), plan("probe_plan", one))
    assert [(pin.place, pin.waiting) for pin in found] == [("A.1", 2), ("A.2", 1)]


def test_of_two_that_open_as_much_the_easier_comes_first():
    found = wanted(plan("probe_plan", reading("1", "asleep")), plan("probe_plan", reading("2")))
    assert [pin.place for pin in found] == ["A.2", "A.1"]
    assert [pin.visit_min for pin in found] == [16.0, 36.0]


def test_a_plan_that_waits_for_three_pins_counts_a_third_for_each():
    found = wanted(plan("probe_plan", reading("1"), reading("2"), reading("3")))
    assert [pin.opens for pin in found] == pytest.approx([1 / 3] * 3)


def test_all_readings_of_a_pin_are_one_visit():
    found = wanted(plan("probe_plan", reading("1"), reading("1", load="1a")))
    assert [pin.visit_min for pin in found] == [17.0]


def test_what_plans_wait_for_stands_before_what_they_rest_on():
    tap = plan("tap_plan", reading("4"))
    found = wanted(*[tap] * 9, plan("probe_plan", reading("5", "asleep")))
    assert [pin.place for pin in found] == ["A.5", "A.4"]
    assert (found[1].relying, found[1].raise_by) == (9, GOOD.raise_by)
    assert found[1].visit_min is None


@pytest.mark.parametrize("kind", ["tap_plan", "no_plan"])
def test_a_proven_pin_that_nobody_waits_for_is_not_wanted(kind):
    assert wanted(plan(kind, reading("1")), standing={"A.1": PROVEN}) == []


def test_a_plan_that_cannot_be_made_asks_for_nothing():
    assert wanted(replace(plan("probe_plan", reading("1")), kind="no_plan")) == []
