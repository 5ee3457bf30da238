"""What must hold for every plan, whatever the car."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from plan_cars import (
    accessory,
    amplifier_on,
    bridged_pair,
    car,
    channel,
    claimed_pair,
    common_pair,
    converter,
    plug,
    retained,
)
from samples import many

from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.model.words import GRADE_BANDS
from builder.planning.feeds.tap_plan import make_plan, plan_as_json
from builder.planning.levels.level_pad import pad_resistor_ohm
from builder.planning.trust import blocks
from builder.units import db_to_ratio, voltage_ratio_db

HOUSE = HouseDefaults()
CORNERS = ("front-left", "front-right", "rear-left", "rear-right")
CONVERTERS = ("cvn-2a", "cvn-4a", "cvn-6s", "cvn-2p", "tsm-2g")
TRI = st.sampled_from(["yes", "no", "unknown"])
RARELY_UNKNOWN = st.sampled_from(["no", "no", "no", "unknown"])
MAKERS = {"bridged": bridged_pair, "claimed": claimed_pair, "common": common_pair}


@st.composite
def cars(draw: st.DrawFn) -> Vehicle:
    extra = draw(st.sets(st.sampled_from(("sub", "centre"))))
    names = set(draw(st.sampled_from([CORNERS, CORNERS, CORNERS[:2], CORNERS[2:], ()]))) | extra
    usual = draw(st.sampled_from(["bridged", "bridged", "common"]))
    pins: list[dict[str, Any]] = []
    channels = []
    for index, name in enumerate(sorted(names)):
        made = draw(st.sampled_from([usual] * 8 + sorted(MAKERS)))
        pins += MAKERS[made](name, 1 + 2 * index)
        channels.append(
            channel(
                name,
                polarity=draw(st.sampled_from(["normal", "inverted", "unknown"])),
                shared_return=draw(st.sampled_from(["no"] * 8 + ["yes", "unknown"])),
                upmix=draw(TRI),
                level={"label_w": draw(st.sampled_from([5, 17, 50, 300])), "label_ohm": 4},
            )
        )
    for cavity, make in ((20, amplifier_on), (21, retained), (22, accessory)):
        if draw(st.booleans()):
            pins.append(make(cavity))
    if draw(st.booleans()):
        pins.append({"cavity": 23, "function": "constant"})
    features = {"start_stop": draw(TRI), "hybrid": "no", "noise_cancellation": draw(TRI),
                "engine_sound": "no", "emergency_call": draw(RARELY_UNKNOWN)}  # fmt: skip
    stated = {"bridged": "bridged", "common": "common_ground"}[usual]
    outputs = draw(st.sampled_from([stated, stated, "unknown"]))
    return car(
        plugs=[plug(pins)],
        channels=channels,
        features=features,
        factory_amplifier={"feed": draw(st.sampled_from(["none", "none", "none", "unknown"]))},
        radio={"outputs": outputs, "open_load_check": draw(TRI), "data_wake": "no"},
    )


plans = given(cars(), st.sampled_from(CONVERTERS), st.sampled_from(["auto", "addon", "intercept"]))


@plans
@settings(max_examples=many(120), deadline=None)
def test_a_tap_plan_keeps_its_promises(vehicle: Vehicle, identity: str, treatment: Any) -> None:
    plan = make_plan(vehicle, converter(identity), defaults=HOUSE, treatment=treatment)
    assert (plan.kind == "tap_plan") == (not plan.refusals)
    if plan.kind == "probe_plan":
        assert plan.tests and all(test.settles and test.how for test in plan.tests)
        assert len(set(plan.tests)) == len(plan.tests)
    if plan.kind != "tap_plan":
        assert (plan.feeds, plan.insulate) == ((), ())  # nothing that could be joined
        return
    assert GRADE_BANDS.index(plan.grade) <= GRADE_BANDS.index("check first")
    asked = {(test.plug, test.cavity) for test in plan.tests}
    assert {(feed.plug, feed.cavity) for feed in plan.feeds} <= asked
    assert all(f.grade in ("proven", "good") for f in plan.feeds if f.treatment == "intercept")
    assert all(level.verdict != "over" for level in plan.levels)
    assert len(plan.levels) == len(plan.feeds) / 2


@plans
@settings(max_examples=many(120), deadline=None)
def test_terminals_and_pairs_add_up(vehicle: Vehicle, identity: str, treatment: Any) -> None:
    parts = converter(identity)
    plan = make_plan(vehicle, parts, defaults=HOUSE, treatment=treatment)
    terminals = [(feed.converter_input, feed.leg) for feed in plan.feeds]
    assert len(set(terminals)) == len(terminals)
    by_channel: dict[str, set[str]] = {}
    for feed in plan.feeds:
        by_channel.setdefault(feed.channel, set()).add(feed.treatment)
    assert all(len(treatments) == 1 for treatments in by_channel.values())
    if not plan.feeds:
        return
    # Every converter input is fed or closed off, and every broken leg has its open end named.
    closed = [end for end in plan.insulate if end.what.startswith("converter input")]
    assert len(terminals) + len(closed) == 2 * parts.inputs
    broken = {(f.plug, f.cavity) for f in plan.feeds if f.treatment == "intercept"}
    assert {(end.plug, end.cavity) for end in plan.insulate if end.plug} == broken


@plans
@settings(max_examples=many(60), deadline=None)
def test_the_same_car_gives_the_same_plan(vehicle: Vehicle, identity: str, treatment: Any) -> None:
    first, second = (
        make_plan(vehicle, converter(identity), defaults=HOUSE, treatment=treatment)
        for _ in range(2)
    )
    assert json.dumps(plan_as_json(first)) == json.dumps(plan_as_json(second))


@plans
@settings(max_examples=many(60), deadline=None)
def test_a_barred_pin_is_never_used(vehicle: Vehicle, identity: str, treatment: Any) -> None:
    plan = make_plan(vehicle, converter(identity), defaults=HOUSE, treatment=treatment)
    for path in plan.used_paths:
        again = make_plan(
            vehicle, converter(identity), defaults=HOUSE, treatment=treatment, barred={path: "no"}
        )
        assert path not in again.used_paths


volts = st.floats(0.5, 60)


@given(volts, volts, st.floats(1, 60))
def test_a_louder_source_never_has_more_margin(one: float, other: float, limit: float) -> None:
    low, high = sorted((one, other))
    assert voltage_ratio_db(limit, high) <= voltage_ratio_db(limit, low)


@given(volts, st.floats(1, 60), st.floats(50, 50_000))
def test_a_pad_leaves_its_margin(source: float, limit: float, ohm: float) -> None:
    pad = pad_resistor_ohm(source, limit, ohm, 3.0)
    through = source * ohm / (ohm + 2 * pad)
    assert through <= limit / db_to_ratio(3.0) * (1 + 1e-9)


@given(st.lists(st.integers(0, 3), max_size=5), st.lists(st.integers(0, 3), max_size=5))
def test_bars_work_both_ways(one: list[int], other: list[int]) -> None:
    first, second = tuple(one), tuple(other)
    assert blocks(first, second) == blocks(second, first)
    assert blocks(first, second) == (
        first[: len(second)] == second or second[: len(first)] == first
    )
