"""Boundaries that the whole jobs do not reach."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from plan_cars import (
    FEATURES,
    accessory,
    bridged_pair,
    car,
    channel,
    common_pair,
    converter,
    doors_car,
    plug,
    reading,
    retained,
)

from builder.model.house_defaults import HouseDefaults
from builder.model.pin import Condition
from builder.model.vehicle import Vehicle
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.plan import Plan
from builder.planning.trust import holds_for_whole_scope

HOUSE = HouseDefaults()
BANDS = ("front-left-woofer", "front-left-tweeter", "front-right-woofer", "front-right-tweeter")


def plan_of(vehicle: Vehicle, identity: str = "cvn-2a", **more: Any) -> Plan:
    return make_plan(vehicle, converter(identity), defaults=HOUSE, **more)


def decisions(plan: Plan) -> str:
    return "\n".join(reason.decision for reason in (*plan.because, *plan.refusals))


def summing(**more: Any) -> Any:
    """A converter of four inputs that joins two of one side."""
    limits = {"type": "floating", "max_v_rms": 40, "after_sum_max_v_rms": 40,
              "impedance_ohm": 10000}  # fmt: skip
    return converter("cvn-6s", **({"inputs": 4, "outputs": 4, "sum": "same_side",
                                  "input": limits} | more))  # fmt: skip


def split(low_hz: float = 2800, high_hz: float = 3000, **late: Any) -> Vehicle:
    channels = []
    for name in BANDS:
        edge = {"band": "low", "lowpass_hz": low_hz, "delay_ms": 0}
        if name.endswith("tweeter"):
            edge = {"band": "high", "highpass_hz": high_hz, "delay_ms": 0.02} | late
        channels.append(channel(name, **edge))
    pins = [pin for i, name in enumerate(BANDS) for pin in bridged_pair(name, 1 + 2 * i)]
    return car(channels=channels, plugs=[plug([*pins, accessory(9)])])


def test_split_fronts_are_joined_side_by_side() -> None:
    plan = make_plan(split(), summing(), defaults=HOUSE)
    assert plan.kind == "tap_plan"
    assert [feed.channel for feed in plan.feeds][::2] == list(BANDS)


@pytest.mark.parametrize(("high_hz", "hole"), [(3360, False), (3361, True)])
def test_a_hole_between_the_bands(high_hz: float, hole: bool) -> None:
    plan = make_plan(split(2800, high_hz), summing(), defaults=HOUSE)
    assert ("the bands leave a hole" in decisions(plan)) is hole
    assert (plan.kind == "probe_plan") is hole


def test_corners_and_delays_nobody_measured() -> None:
    no_corner = make_plan(split(highpass_hz="unknown"), summing(), defaults=HOUSE)
    assert {test.quantity for test in no_corner.tests} == {"hz"}
    no_delay = make_plan(split(delay_ms="unknown"), summing(), defaults=HOUSE)
    assert (no_delay.kind, {test.quantity for test in no_delay.tests}) == ("probe_plan", {"ac_v"})


def test_a_converter_that_delays_may_join_late_bands() -> None:
    late = split(delay_ms=0.12)
    assert make_plan(late, summing(), defaults=HOUSE).kind == "probe_plan"
    assert make_plan(late, summing(delay_adjust="yes"), defaults=HOUSE).kind == "tap_plan"


def test_the_limit_after_the_sum_counts_for_joined_bands() -> None:
    tight = {"type": "floating", "max_v_rms": 40, "after_sum_max_v_rms": 5, "impedance_ohm": 10000}
    plan = make_plan(split(), summing(input=tight), defaults=HOUSE)
    assert {level.converter_max_v_rms for level in plan.levels} == {5}
    # Bands that are added up get the same pad, or the treble would shift against the bass.
    assert len({level.pad_ohm_per_leg for level in plan.levels}) == 1
    assert all(level.pad_ohm_per_leg and level.verdict == "fine" for level in plan.levels)


@pytest.mark.parametrize(("limit", "kind"), [(16.4, "no_plan"), (16.5, "tap_plan")])
def test_the_sum_of_the_fronts_has_its_limit(limit: float, kind: str) -> None:
    limits = {"type": "floating", "max_v_rms": 40, "after_sum_max_v_rms": limit,
              "impedance_ohm": 10000}  # fmt: skip
    part = converter("cvn-6s", input=limits)
    assert make_plan(doors_car([retained(9)]), part, defaults=HOUSE).kind == kind


def test_every_broken_pair_needs_an_output() -> None:
    vehicle = doors_car([retained(9)])
    few = make_plan(vehicle, converter("cvn-4a", outputs=3), defaults=HOUSE)
    assert (few.kind, "too few outputs" in decisions(few)) == ("no_plan", True)


def test_a_grounded_negative_input_never_meets_the_driven_leg() -> None:
    names = ("rear-left", "rear-right")
    pins = [pin for i, name in enumerate(names) for pin in common_pair(name, 1 + 2 * i)]
    vehicle = car(
        plugs=[plug([*pins, accessory(9)])],
        channels=[channel(name, polarity="inverted", shared_return="no") for name in names],
        radio={"outputs": "common_ground", "open_load_check": "no", "data_wake": "no"},
    )
    grounded = plan_of(vehicle, "tsm-2g")
    assert grounded.kind == "tap_plan"
    assert [(f.leg, f.cavity) for f in grounded.feeds][:2] == [("positive", "1"), ("negative", "2")]
    assert "leave rear left, rear right as it is" in decisions(grounded)
    assert plan_of(vehicle, "cvn-2a").feeds[0].cavity == "2"


@pytest.mark.parametrize("known", ["yes", "unknown", "no"])
def test_a_subwoofer_and_noise_cancellation(known: str) -> None:
    features = dict.fromkeys(FEATURES, "no") | {"noise_cancellation": known}
    vehicle = doors_car([retained(9)], features=features)
    said = "see to noise cancellation"
    assert (said in decisions(plan_of(vehicle))) is (known != "no")
    assert said not in decisions(plan_of(vehicle, "cvn-4a"))


def test_unknown_outputs_are_told_by_their_bias() -> None:
    names = ("rear-left", "rear-right")
    radio = {"outputs": "unknown", "open_load_check": "no", "data_wake": "no"}

    def grounded_plan(pins: list[dict[str, Any]]) -> str:
        channels = [channel(name, shared_return="no") for name in names]
        vehicle = car(plugs=[plug([*pins, accessory(9)])], channels=channels, radio=radio)
        return decisions(plan_of(vehicle, "tsm-2g"))

    biased = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i)]
    flat = [pin for i, name in enumerate(names) for pin in common_pair(name, 1 + 2 * i)]
    assert "never join these" in grounded_plan(biased)
    assert "never join" not in grounded_plan(flat)
    for pin in biased:
        pin["readings"] = [r for r in pin["readings"] if r["quantity"] != "dc_v"]
    assert "never join these unmeasured" in grounded_plan(biased)


def test_an_unused_turn_on_input_is_closed_off() -> None:
    names = [end.what for end in plan_of(doors_car(), "cvn-6s").insulate]
    assert "converter turn-on input" in names
    wired = [end.what for end in plan_of(doors_car([retained(9)]), "cvn-6s").insulate]
    assert "converter turn-on input" not in wired


@pytest.mark.parametrize(
    "condition",
    [{"trims": ["sport"]}, {"options_any": ["pack"]}, {"options_none": ["pack"]}],
)
def test_a_pair_of_only_some_cars_is_left_alone(condition: dict[str, Any]) -> None:
    pins = bridged_pair("rear-left", 1) + bridged_pair("rear-right", 3)
    pins[0]["only_if"] = condition
    pins += bridged_pair("front-left", 5) + bridged_pair("front-right", 7)
    names = ("front-left", "front-right", "rear-left", "rear-right")
    vehicle = car(plugs=[plug([*pins, retained(9)])], channels=[channel(name) for name in names])
    plan = plan_of(vehicle)
    assert plan.feeds[0].channel == "front-left"
    assert "the rear left pair is left alone" in decisions(plan)


@pytest.mark.parametrize(
    ("scope", "condition", "holds"),
    [
        ({}, {}, True),
        ({"trims": ["base"]}, {"trims": ["base"]}, True),
        ({"trims": ["base"]}, {"trims": ["base", "mid"]}, True),
        ({"trims": ["base", "mid"]}, {"trims": ["base"]}, False),
        ({"trims": ["all"]}, {"trims": ["base", "all"]}, False),
        ({"options_any": ["pack"]}, {"options_any": ["pack"]}, True),
        ({"options_any": ["pack"]}, {"options_any": ["pack", "tow"]}, True),
        ({"options_any": ["pack", "tow"]}, {"options_any": ["pack"]}, False),
        ({"options_any": []}, {"options_any": ["pack"]}, False),
        ({"options_none": ["pack"]}, {"options_none": ["pack"]}, True),
        ({"options_none": ["pack", "tow"]}, {"options_none": ["pack"]}, True),
        ({"options_none": []}, {"options_none": ["pack"]}, False),
    ],
)
def test_a_line_holds_for_all_cars_of_a_record_where_each_of_them_meets_its_condition(
    scope: dict[str, Any], condition: dict[str, Any], holds: bool
) -> None:
    vehicle = doors_car([retained(9)])
    narrowed = {key: tuple(words) for key, words in scope.items()}
    scoped = replace(vehicle, scope=replace(vehicle.scope, **narrowed))
    asked = Condition(**{key: tuple(words) for key, words in condition.items()})
    assert holds_for_whole_scope(scoped, asked) is holds


def test_a_common_ground_leg_with_bias_is_no_common_ground() -> None:
    one_leg = bridged_pair("rear-left", 1) + bridged_pair("rear-right", 3)
    one_leg[1]["readings"][0] = reading("radio_on_zero", 0.0)
    radio = {"outputs": "unknown", "open_load_check": "no", "data_wake": "no"}
    vehicle = car(
        plugs=[plug([*one_leg, accessory(9)])],
        channels=[channel("rear-left"), channel("rear-right")],
        radio=radio,
    )
    assert plan_of(vehicle, "tsm-2g").kind == "no_plan"
