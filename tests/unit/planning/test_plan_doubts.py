"""Readings that settle what no signature speaks of."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from plan_cars import FEATURES, accessory, bridged_pair, car, channel, converter, doors_car

from builder.model.house_defaults import HouseDefaults
from builder.planning.car.doubt_readings import band_phase_reading
from builder.planning.car.pairs import find_pairs
from builder.planning.feeds.band_sums import delay_limit_ms, phase_deg
from builder.planning.feeds.tap_plan import make_plan

HOUSE = HouseDefaults()


def test_two_legs_show_the_phase_of_their_bands() -> None:
    """Two bridges of 1 V RMS each: legs swing half of it, the difference is worked out in time."""
    crossover = 2900.0
    phase = phase_deg(crossover, delay_limit_ms(crossover)) * pi / 180
    steps = [2 * pi * step / 1000 for step in range(1000)]
    peak = 2**0.5
    between = [peak * (cos(angle) - cos(angle + phase)) / 2 for angle in steps]
    rms = (sum(volts * volts for volts in between) / len(between)) ** 0.5
    first, second = find_pairs(doors_car(), HOUSE)[:2]
    assert band_phase_reading(first, second, crossover).high == pytest.approx(rms)
    assert rms == pytest.approx(sin(phase / 2))


def test_a_sound_that_may_play_key_off_is_listened_for() -> None:
    chime = {"sound": "lights warning", "channels": ["front-left"], "plays_key_off": "unknown"}
    plan = make_plan(
        doors_car([accessory(9)], protected_sounds=[chime]), converter("cvn-4a"), defaults=HOUSE
    )
    assert plan.kind == "probe_plan"
    assert [(test.cavity, test.against, test.state) for test in plan.tests] == [
        ("1", "A.2", "retained")
    ]


def test_the_emergency_call_is_looked_for_on_every_broken_pair() -> None:
    unknown = dict.fromkeys(FEATURES, "no") | {"emergency_call": "unknown"}
    plan = make_plan(
        doors_car([accessory(9)], features=unknown), converter("cvn-4a"), defaults=HOUSE
    )
    assert [test.cavity for test in plan.tests] == ["1", "3", "5", "7"]
    assert all("never place a call" in test.safety for test in plan.tests)


def test_a_level_that_nothing_bounds_is_measured_first() -> None:
    names = ("rear-left", "rear-right")
    pins = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i)]
    for pin in pins:
        pin["readings"] = pin["readings"][1:]
    amplifier = {
        "id": "K", "name": "k", "unit": "amplifier", "location": "boot", "housing": "h",
        "read_from": "wire_side", "pins": [*pins, accessory(9)],
    }  # fmt: skip
    vehicle = car(
        plugs=[amplifier],
        channels=[channel(name, driven_by="amplifier", level={}) for name in names],
        factory_amplifier={"feed": "digital"},
    )
    plan = make_plan(vehicle, converter(), defaults=HOUSE)
    assert (plan.kind, plan.levels) == ("probe_plan", ())
    levels = [test for test in plan.tests if test.quantity == "ac_v"]
    assert [(test.cavity, test.high) for test in levels] == [("1", 20), ("3", 20)]
