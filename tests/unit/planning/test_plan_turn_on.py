"""The turn-on ladder: what is chosen, what never is, and what is said of it."""

from __future__ import annotations

from typing import Any

import pytest
from pack_jobs import job, pack_of, route, subwoofer, supply
from plan_cars import (
    accessory,
    amplifier_on,
    bridged_pair,
    car,
    channel,
    claimed_pair,
    converter,
    doors_car,
    plug,
    reading,
    retained,
)

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.plan import Plan

HOUSE = HouseDefaults()

FORBIDDEN = (
    "constant", "constant_sleeps", "illumination", "aerial_on", "camera_supply", "microphone",
    "mute", "speed", "reverse", "park_brake", "wheel_keys", "data_high", "data_low",
    "data_single",
)  # fmt: skip


def plan_of(vehicle: Vehicle, identity: str = "cvn-2a", **more: Any) -> Plan:
    return make_plan(vehicle, converter(identity), defaults=HOUSE, **more)


def verdict(plan: Plan, rung: int) -> str:
    return next(r.verdict for r in plan.ladder if r.rung == rung)


def path_of(vehicle: Vehicle, cavity: str) -> DataPath:
    return next(pin.path for pin in vehicle.plugs[0].pins if pin.cavity == cavity)


def run_wire(cavity: int) -> dict[str, Any]:
    readings = [reading("asleep", 0.0, minutes=65), reading("accessory", 0.0), reading("run", 12.4)]
    return {"cavity": cavity, "function": "run", "readings": readings}


def test_the_ladder_is_climbed_from_the_top() -> None:
    wires = {1: amplifier_on(9), 2: retained(10), 3: accessory(11), 7: run_wire(12)}
    while wires:
        best = min(wires)
        plan = plan_of(doors_car(list(wires.values())), "tsm-2g", treatment="addon")
        assert plan.turn_on.rung == best
        del wires[best]
    assert plan_of(doors_car(), "tsm-2g").turn_on.kind == "none"


def test_every_rung_has_a_verdict_and_a_reason() -> None:
    plan = plan_of(doors_car([retained(9)]))
    assert [rung.rung for rung in plan.ladder] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert all(rung.because for rung in plan.ladder)
    assert [rung.verdict for rung in plan.ladder].count("chosen") == 1


@pytest.mark.parametrize("function", FORBIDDEN)
def test_forbidden_functions_never_switch_anything(function: str) -> None:
    tempting = accessory(9, function=function)
    plan = plan_of(doors_car([tempting]), "cvn-4a")
    assert plan.turn_on.kind == "signal_wake"
    named = [r for r in plan.because if r.decision.startswith("never switch")]
    assert len(named) == 1 and "A.9" in named[0].because


def test_no_forbidden_function_is_forgotten() -> None:
    from builder.model.words import FUNCTIONS

    harmless = {"ground", "speaker", "line", "shield", "camera_signal", "illumination_return",
                "not_used", "unknown"}  # fmt: skip
    ladder = {"amplifier_on", "retained", "accessory", "run"}
    assert set(FUNCTIONS) == harmless | ladder | set(FORBIDDEN)


def test_nothing_at_all_is_a_refusal_that_says_what_would_help() -> None:
    pins = [pin for i, name in enumerate(("rear-left", "rear-right"))
            for pin in bridged_pair(name, 1 + 2 * i)]  # fmt: skip
    vehicle = car(plugs=[plug(pins)], channels=[channel("rear-left"), channel("rear-right")])
    plan = make_plan(
        vehicle,
        converter(turn_on={"remote_in": {"draw_ma": 8}, "offset_wake": "no", "signal_wake": "no"}),
        defaults=HOUSE,
    )
    assert plan.kind == "no_plan"
    assert "fuse position" in plan.refusals[0].because


def test_a_logic_level_output_gives_five_milliamperes_at_most() -> None:
    readings = [
        reading("radio_off", 0.0),
        reading("radio_on_zero", 4.9),
        reading("other_source", 4.9),
        reading("radio_on_zero", 4.8, load="5ma"),
    ]
    wire = amplifier_on(9, level_v=5, readings=readings)
    assert verdict(plan_of(doors_car([wire])), 1) == "refused"
    small = converter(turn_on={"remote_in": {"draw_ma": 4}})
    plan = make_plan(doors_car([wire]), small, defaults=HOUSE)
    assert plan.turn_on.rung == 1
    assert any(reason.decision == "add a driver" for reason in plan.because)


@pytest.mark.parametrize(("rating_ma", "allowed"), [(15, False), (16, True)])
def test_half_of_the_rating_may_be_drawn(rating_ma: float, allowed: bool) -> None:
    plan = plan_of(doors_car([amplifier_on(9, max_source_ma=rating_ma)]))
    assert (plan.turn_on.rung == 1) is allowed


def test_an_unrecorded_capacity_is_said_not_guessed() -> None:
    plan = plan_of(doors_car([accessory(9)]))
    assert plan.turn_on.capacity_ma is None
    assert "not recorded" in plan.turn_on.because


def test_a_better_rung_that_is_unproved_is_asked_for_and_not_passed_over() -> None:
    unread = retained(9, readings=[reading("accessory", 12.4), reading("asleep", 0.0, minutes=65)])
    plan = plan_of(doors_car([unread, accessory(10)]))
    assert (plan.kind, plan.turn_on.rung, plan.feeds) == ("probe_plan", 2, ())
    assert [(test.cavity, test.state) for test in plan.tests] == [("9", "retained")]
    (refusal,) = plan.refusals
    assert refusal.decision == "prove A.9 before it switches anything on"
    assert "Proved so far is the accessory supply at A.10, rung 3" in refusal.because


def test_no_silent_rung_8_above_an_unproved_wire() -> None:
    unread = accessory(10, readings=[reading("accessory", 12.4)])
    plan = make_plan(doors_car([unread]), converter("cvn-4a"), defaults=HOUSE)
    assert verdict(plan, 8) == "possible"
    assert (plan.kind, plan.turn_on.rung) == ("probe_plan", 3)
    assert "Proved so far is the sound itself, rung 8" in plan.refusals[0].because


def test_a_lower_rung_that_the_job_accepts_is_said_first() -> None:
    unread = retained(9, readings=[reading("accessory", 12.4)])
    car = doors_car([unread, accessory(10)])
    routes = [route("radio", "converter", "signal", 5.4), route("radio", "converter", "control", 5)]
    speakers = [subwoofer("rear-left", "rear-right")]
    parts = ({"sub amp": "amn-600"}, ("2c", "3c"))
    asked = pack_of(car, job(speakers, routes, supply(4.2, 0.4)), "cvn-2a", *parts)
    assert asked.kind == "probe_plan"
    assert [reason.decision for reason in asked.refusals] == [
        "prove A.9 before it switches anything on"
    ]
    accepted = [{"rule": "ONN108", "reason": "the plug cannot be reached", "who": "some-shop"}]
    what = job(speakers, routes, supply(4.2, 0.4), accept=accepted)
    pack = pack_of(car, what, "cvn-2a", *parts)
    assert (pack.kind, pack.plan.turn_on.rung) == ("tap_plan", 3)
    assert verdict(pack.plan, 2) == "unproved"
    assert pack.plan.because[0].decision.startswith("the turn-on stays on the accessory supply")
    assert "the retained supply at A.9, rung 2" in pack.plan.because[0].because


def test_a_lower_rung_that_is_unproved_asks_for_nothing() -> None:
    unread = accessory(10, readings=[])
    plan = plan_of(doors_car([retained(9), unread]))
    assert (plan.kind, plan.turn_on.rung) == ("tap_plan", 2)


def test_a_weak_wire_with_nothing_below_it_is_measured_first() -> None:
    unread = retained(9, readings=[reading("accessory", 12.4)])
    silent = converter(turn_on={"remote_in": {"draw_ma": 8}})
    plan = make_plan(doors_car([unread]), silent, defaults=HOUSE)
    assert (plan.kind, plan.turn_on.rung) == ("probe_plan", 2)
    assert {(test.cavity, test.state) for test in plan.tests} == {
        ("9", "asleep"),
        ("9", "retained"),
    }


def test_a_wire_with_a_stop_finding_is_refused() -> None:
    vehicle = doors_car([retained(9), accessory(10)])
    plan = plan_of(vehicle, barred={path_of(vehicle, "9"): "stays on asleep"})
    assert plan.turn_on.rung == 3
    assert plan.ladder[1].because == "stays on asleep"


def test_offset_wake_needs_its_volts_on_both_legs() -> None:
    def with_bias(bias_v: float) -> Vehicle:
        names = ("rear-left", "rear-right")
        pins = [
            pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i, bias_v)
        ]
        return car(plugs=[plug(pins)], channels=[channel(name) for name in names])

    high = converter(turn_on={"offset_wake": {"min_v": 6.5}})
    assert make_plan(with_bias(6.4), high, defaults=HOUSE).kind == "no_plan"
    assert make_plan(with_bias(6.6), high, defaults=HOUSE).turn_on.rung == 5


def test_offset_wake_on_unmeasured_legs_asks_for_their_bias() -> None:
    names = ("rear-left", "rear-right")
    pins = [pin for i, name in enumerate(names) for pin in claimed_pair(name, 1 + 2 * i)]
    vehicle = car(plugs=[plug(pins)], channels=[channel(name) for name in names])
    plan = make_plan(vehicle, converter(turn_on={"offset_wake": {"min_v": 2}}), defaults=HOUSE)
    assert plan.kind == "probe_plan"
    assert {(t.cavity, t.state) for t in plan.tests} >= {
        ("1", "radio_on_zero"), ("2", "radio_on_zero"),
    }  # fmt: skip
    assert ("3", "radio_on_zero") not in {(t.cavity, t.state) for t in plan.tests}


def test_a_wire_of_only_some_trims_is_not_used() -> None:
    vehicle = doors_car([retained(9, only_if={"trims": ["sport"]}), accessory(10)])
    assert plan_of(vehicle).turn_on.rung == 3
    own = doors_car([retained(9, only_if={"trims": ["base"]}), accessory(10)])
    assert plan_of(own).turn_on.rung == 2
