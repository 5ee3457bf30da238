"""Grades, readings and functions of the shipped cars changed at random: a tap plan still stands
on nothing that is not proved enough."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import cycle, product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pack_jobs import CONVERTERS, HOUSE, SHIPPED, VEHICLES, settled, shipped_parts
from samples import LONG, many

from builder.findings import DataPath
from builder.model.plugs import FusePosition, Pin
from builder.model.vehicle import Vehicle
from builder.model.words import GRADE_BANDS
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.job.make_pack import make_pack
from builder.planning.plan import Plan
from builder.planning.trust import LISTENING, RELIABLE, GradeLike, GradeOf

MODEST = settings(max_examples=many(150), deadline=None)
SOME = settings(max_examples=many(60), deadline=None)
ASKED = {"intercept": RELIABLE, "addon": LISTENING}
CARS, DEVICES = st.sampled_from(sorted(VEHICLES)), st.sampled_from(sorted(CONVERTERS))
TREATMENTS = st.sampled_from(["auto", "addon", "intercept"])
MOSTLY_GOOD = st.sampled_from(["proven"] * 6 + ["good"] * 2 + list(GRADE_BANDS))
UNPROVED = ("retained", "accessory", "amplifier_on", "run")


@dataclass(frozen=True)
class Drawn:
    """A grade that was drawn and not worked out."""

    band: str
    why: str = "drawn"
    raise_by: str = "drawn"


def spots(vehicle: Vehicle) -> list[Pin | FusePosition]:
    return [*(pin for plug in vehicle.plugs for pin in plug.pins), *vehicle.fuse_positions]


def drawn_grades(data: st.DataObject, vehicle: Vehicle) -> tuple[GradeOf, dict[DataPath, str]]:
    bands = {spot.path: data.draw(MOSTLY_GOOD) for spot in spots(vehicle)}

    def grade(_: Vehicle, pin: Pin) -> GradeLike:
        return Drawn(bands[pin.path])

    return grade, bands


def stands_on_proved_pins(plan: Plan, bands: dict[DataPath, str]) -> None:
    if plan.kind != "tap_plan":
        return
    for feed in plan.feeds:
        assert bands[feed.path] in ASKED[feed.treatment], feed
        assert feed.grade in (bands[feed.path], "check first")  # never better than drawn
    if plan.turn_on.path is not None:
        assert bands[plan.turn_on.path] in RELIABLE, plan.turn_on


@MODEST
@given(CARS, DEVICES, TREATMENTS, st.data())
def test_no_tap_plan_on_a_pin_below_its_grade(
    car: str, device: str, treatment: Any, data: st.DataObject
) -> None:
    vehicle, converter = VEHICLES[car], CONVERTERS[device]
    grade, bands = drawn_grades(data, vehicle)
    plan = make_plan(vehicle, converter, defaults=HOUSE, treatment=treatment, grade=grade)
    assert (plan.kind == "tap_plan") == (not plan.refusals)
    stands_on_proved_pins(plan, bands)


@SOME
@given(st.sampled_from(SHIPPED), st.data())
def test_no_work_pack_on_a_pin_below_its_grade(name: str, data: st.DataObject) -> None:
    parts = settled(shipped_parts(name))
    grade, bands = drawn_grades(data, parts.vehicle)
    pack = make_pack(parts, defaults=HOUSE, grade=grade)
    assert (pack.kind == "tap_plan") == (not pack.refusals)
    stands_on_proved_pins(pack.plan, bands)


BELOW = [band for band in GRADE_BANDS if band not in RELIABLE]


@pytest.mark.parametrize("name", SHIPPED)
def test_each_pin_of_a_shipped_job_below_its_grade(name: str) -> None:
    parts = settled(shipped_parts(name))
    good = make_pack(parts, defaults=HOUSE, grade=lambda *_: Drawn("proven"))
    assert good.kind == "tap_plan"
    waking = good.plan.turn_on.pair  # asked for as much proof as any turn-on
    listened = {
        feed.path
        for feed in good.plan.feeds
        if feed.treatment == "addon" and feed.channel != waking
    }
    turns = zip(good.plan.used_paths, cycle(BELOW), strict=False)
    for path, band in product(good.plan.used_paths, BELOW) if LONG else turns:
        pack = make_pack(
            parts,
            defaults=HOUSE,
            grade=lambda _, pin, at=path, low=band: Drawn(low if pin.path == at else "proven"),
        )
        if path in listened and band in LISTENING:
            assert path in pack.plan.used_paths
        else:
            assert path not in pack.plan.used_paths


@SOME
@given(CARS, DEVICES, TREATMENTS, st.data())
def test_readings_taken_away_are_missed(
    car: str, device: str, treatment: Any, data: st.DataObject
) -> None:
    vehicle, converter = VEHICLES[car], CONVERTERS[device]
    bare = data.draw(st.sets(st.sampled_from([spot.path for spot in spots(vehicle)])))

    def emptied(spot: Any) -> Any:
        more = {"claims": ()} if isinstance(spot, Pin) else {}
        return replace(spot, readings=(), **more) if spot.path in bare else spot

    plugs = tuple(
        replace(plug, pins=tuple(emptied(pin) for pin in plug.pins)) for plug in vehicle.plugs
    )
    positions = tuple(emptied(position) for position in vehicle.fuse_positions)
    changed = replace(vehicle, plugs=plugs, fuse_positions=positions)
    plan = make_plan(changed, converter, defaults=HOUSE, treatment=treatment)
    if plan.kind != "tap_plan":
        return
    met = probed(changed)
    for feed in plan.feeds:
        assert feed.path in met or (feed.treatment, feed.grade) == ("addon", "check first")
    assert plan.turn_on.path is None or plan.turn_on.path in met


def probed(vehicle: Vehicle) -> set[DataPath]:
    """Pins and positions with readings, and pins that others were read against."""
    pins = [(f"{plug.id}.{pin.cavity}", pin) for plug in vehicle.plugs for pin in plug.pins]
    against = {reading.against for spot in spots(vehicle) for reading in spot.readings}
    # A bare cavity is one of the plug that was read.
    against |= {
        f"{plug.id}.{reading.against}"
        for plug in vehicle.plugs
        for pin in plug.pins
        for reading in pin.readings
    }
    named = {pin.path for name, pin in pins if name in against}
    return named | {spot.path for spot in spots(vehicle) if spot.readings}


def test_a_leg_that_no_probe_was_on_is_not_relied_on() -> None:
    """However well its partner is known: nobody was ever at this cavity."""
    vehicle = VEHICLES["brantmoor-leto-2019-wagon-mid"]

    def plan(bare: tuple[str, ...], treatment: Any) -> Plan:
        plugs = tuple(
            replace(
                plug,
                pins=tuple(
                    replace(pin, readings=(), claims=()) if pin.cavity in bare else pin
                    for pin in plug.pins
                ),
            )
            for plug in vehicle.plugs
        )
        changed = replace(vehicle, plugs=plugs)
        return make_plan(changed, CONVERTERS["cvn-4a"], defaults=HOUSE, treatment=treatment)

    assert plan((), "intercept").kind == "tap_plan"
    broken = plan(("21",), "intercept")
    assert broken.kind == "probe_plan" and "no meter was ever on this wire" in str(broken.refusals)
    assert any(test.cavity == "21" for test in broken.tests)


@SOME
@given(CARS, DEVICES, TREATMENTS, st.data())
def test_a_barred_pin_of_a_shipped_car_is_never_used(
    car: str, device: str, treatment: Any, data: st.DataObject
) -> None:
    vehicle, converter = VEHICLES[car], CONVERTERS[device]
    barred = data.draw(st.sets(st.sampled_from([spot.path for spot in spots(vehicle)])))
    plan = make_plan(
        vehicle, converter, defaults=HOUSE, treatment=treatment, grade=lambda *_: Drawn("proven"),
        barred=dict.fromkeys(barred, "a stop"),
    )  # fmt: skip
    assert not barred & set(plan.used_paths)


@SOME
@given(CARS, DEVICES, st.data())
def test_nothing_is_switched_on_from_a_wire_of_another_function(
    car: str, device: str, data: st.DataObject
) -> None:
    """Whatever a wire that could switch turns out to be, however well that is proved."""
    vehicle, converter = VEHICLES[car], CONVERTERS[device]
    other = st.sampled_from(
        ["constant", "constant_sleeps", "illumination", "data_high", "mute", "aerial_on",
         "camera_supply", "microphone", "speed", "reverse", "not_used", "unknown"]
    )  # fmt: skip

    def renamed(pin: Pin) -> Pin:
        return replace(pin, function=data.draw(other)) if pin.function in UNPROVED else pin

    plugs = tuple(
        replace(plug, pins=tuple(renamed(pin) for pin in plug.pins)) for plug in vehicle.plugs
    )
    changed = replace(vehicle, plugs=plugs, fuse_positions=())
    plan = make_plan(changed, converter, defaults=HOUSE, grade=lambda *_: Drawn("proven"))
    assert plan.turn_on.kind in ("none", "offset_wake", "signal_wake")
    assert plan.turn_on.path is None
