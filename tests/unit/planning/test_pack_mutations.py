"""Each job of the book with one thing spoilt: the pack changes or refuses, and says why."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

import pytest
from pack_jobs import HOUSE, SHIPPED, flag_kinds, said, settled, with_supply
from pack_jobs import shipped_parts as shipped

from builder.declaring import read
from builder.findings import DataPath
from builder.model.job import Treatments
from builder.model.names import channel_name
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.planning.job.make_pack import make_pack
from builder.planning.power.wire_gauge import awg_number
from builder.planning.trust import GradeLike, GradeOf, grade_by_readings
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.work_pack import JobParts, WorkPack


@cache
def shipped_parts(name: str) -> JobParts:
    """A job of the book that can be built: of the one that asks for a reading, with it taken."""
    return settled(shipped(name))


@cache
def before_of(name: str) -> WorkPack:
    """The pack of that job while nothing is spoilt."""
    return make_pack(shipped_parts(name), defaults=HOUSE)


def pack_of(parts: JobParts, grade: GradeOf | None = None) -> WorkPack:
    return make_pack(parts, defaults=HOUSE, grade=grade)


def without_pins(vehicle: Vehicle, gone: Callable[[Pin], bool]) -> Vehicle:
    plugs = tuple(
        replace(plug, pins=tuple(pin for pin in plug.pins if not gone(pin)))
        for plug in vehicle.plugs
    )
    return replace(vehicle, plugs=plugs)


# -- the switched wire is not there -----------------------------------------------------------

SWITCHED = {
    "tansy-subwoofer": ("probe_plan", "prove F22 before it switches anything on"),
    "tansy-subwoofer-finished": ("probe_plan", "prove F22 before it switches anything on"),
    "leto-four-doors": ("no_plan", "heard with the key off"),
    "dash-converter": ("tap_plan", "accessory"),
    "teasel-subwoofer": ("tap_plan", "offset_wake"),
    "teasel-four-doors": ("no_plan", "names no route that carries control"),
    "tansy-two-coils": ("probe_plan", "prove F22 before it switches anything on"),
    "cutter-fronts": ("no_plan", "nothing may switch it on"),
    "ullin-split-fronts": ("tap_plan", "signal_wake"),
    "rook-two-amplifiers": ("tap_plan", "accessory"),
    "rook-second-battery": ("tap_plan", "accessory"),
    "tarn-subwoofer": ("no_plan", "names no route that carries control"),
    "lovage-mid-subwoofer": ("tap_plan", "signal_wake"),
    "sedge-fronts": ("tap_plan", "offset_wake"),
    "sorrel-five-channels": ("tap_plan", "offset_wake"),
}
"""What becomes of each job: the next rung, or the words of the refusal. An unproved fuse position
stands above the bias of a pair, so it is asked for first."""


def without_turn_on(parts: JobParts, pack: WorkPack) -> JobParts:
    turn_on = pack.plan.turn_on
    if turn_on.kind in WAKES_BY_ITSELF:
        wakes = replace(parts.converter.turn_on, offset_wake=None)
        return replace(parts, converter=replace(parts.converter, turn_on=wakes))
    vehicle = without_pins(parts.vehicle, lambda pin: pin.path == turn_on.path)
    kept = tuple(p for p in vehicle.fuse_positions if p.path != turn_on.path)
    return replace(parts, vehicle=replace(vehicle, fuse_positions=kept))


@pytest.mark.parametrize("name", SHIPPED)
def test_without_its_switched_wire(name: str) -> None:
    parts = shipped_parts(name)
    before = before_of(name)
    pack = pack_of(without_turn_on(parts, before))
    kind, words = SWITCHED[name]
    found = pack.plan.turn_on.kind if kind == "tap_plan" else said(pack)
    assert (pack.kind, words in found) == (kind, True), (pack.plan.turn_on, pack.refusals)
    assert pack.plan.turn_on != before.plan.turn_on


# -- a pair the other way round ---------------------------------------------------------------


def inverted(parts: JobParts, channel: str) -> JobParts:
    channels = tuple(
        replace(each, polarity="inverted") if each.channel == channel else each
        for each in parts.vehicle.channels
    )
    return replace(parts, vehicle=replace(parts.vehicle, channels=channels))


@pytest.mark.parametrize("name", SHIPPED)
def test_with_a_pair_inverted(name: str) -> None:
    parts = shipped_parts(name)
    before = before_of(name)
    first = before.plan.feeds[0]
    pack = pack_of(inverted(parts, first.channel))
    assert f"swap the legs of {channel_name(first.channel)}" in said(pack)
    was = {feed.leg: feed.cavity for feed in before.plan.feeds[:2]}
    now = {feed.leg: feed.cavity for feed in pack.plan.feeds[:2]}
    assert now == {"positive": was["negative"], "negative": was["positive"]}


# -- a conductor of half the metal ------------------------------------------------------------


@pytest.mark.parametrize("name", SHIPPED)
def test_with_half_the_supply_conductor(name: str) -> None:
    parts = shipped_parts(name)
    before = before_of(name)
    assert before.power is not None
    run = before.power.runs[0]
    half = str(awg_number(run.conductor.split()[0]) + 3)  # three sizes are half the area
    pack = pack_of(with_supply(parts, size_awg=half))
    assert pack.power is not None
    assert pack.power.runs[0].drop_v > 1.4 * run.drop_v  # the joints stay as they are
    protects = "fuse_above_ceiling" in flag_kinds(pack)
    assert protects or "drop_above_limit" in flag_kinds(pack)
    if protects:
        assert pack.kind == "no_plan" and "does not protect" in said(pack)


@pytest.mark.parametrize("name", SHIPPED)
def test_in_metal_nobody_knows(name: str) -> None:
    pack = pack_of(with_supply(shipped_parts(name), material="unknown"))
    assert "metal_unknown" in flag_kinds(pack)


# -- twice as far -----------------------------------------------------------------------------


@pytest.mark.parametrize("name", SHIPPED)
def test_twice_the_supply_lead(name: str) -> None:
    parts = shipped_parts(name)
    supply = parts.job.supply
    second = supply.second_battery
    if second is None:
        longer = with_supply(parts, supply_lead_m=2 * (supply.supply_lead_m or 0))
    else:  # what is added hangs on that one
        longer = with_supply(parts, second_battery=replace(second, feed_m=2 * second.feed_m))
    before, after = before_of(name).power, pack_of(longer).power
    assert before is not None and after is not None
    one, two = before.runs[0], after.runs[0]
    assert two.length_m > one.length_m
    assert two.conductor != one.conductor or two.drop_v > one.drop_v


@pytest.mark.parametrize("name", SHIPPED)
def test_twice_the_routes(name: str) -> None:
    parts = shipped_parts(name)
    routes = tuple(replace(each, length_m=2 * each.length_m) for each in parts.job.routes)
    pack = pack_of(replace(parts, job=replace(parts.job, routes=routes)))
    for short, long in zip(before_of(name).cut_list, pack.cut_list, strict=True):
        assert long.cut_m > short.cut_m or short.route_m is None


# -- two meters disagree ----------------------------------------------------------------------


@dataclass(frozen=True)
class Disputed:
    band: str = "disputed"
    why: str = "two meters disagree"
    raise_by: str = "read it again"


def disputing(path: DataPath) -> GradeOf:
    usual = grade_by_readings(HOUSE)

    def grade(vehicle: Vehicle, pin: Pin) -> GradeLike:
        return Disputed() if pin.path == path else usual(vehicle, pin)

    return grade


@pytest.mark.parametrize("name", SHIPPED)
def test_with_a_pair_in_dispute(name: str) -> None:
    parts = shipped_parts(name)
    for feed in before_of(name).plan.feeds:
        pack = pack_of(parts, disputing(feed.path))
        assert pack.kind == "probe_plan" and pack.plan.feeds == ()
        assert f"prove the {channel_name(feed.channel)} pair" in said(pack)
        assert "disputed: two meters disagree" in said(pack)
        assert any(test.reading is not None for test in pack.tests)


def woken_by(parts: JobParts, pack: WorkPack) -> list[DataPath]:
    """What a job switches on from: a wire, a fuse position, or the legs of a pair."""
    turn_on = pack.plan.turn_on
    if turn_on.path is not None:
        return [turn_on.path]
    assert turn_on.pair is not None, "a job of the book is switched on by something"
    return [
        pin.path
        for plug in parts.vehicle.plugs
        for pin in plug.pins
        if pin.channel == turn_on.pair and pin.function == "speaker"
        and pin.path in pack.plan.used_paths
    ]  # fmt: skip


@pytest.mark.parametrize("name", SHIPPED)
def test_with_the_turn_on_in_dispute(name: str) -> None:
    parts = shipped_parts(name)
    before = before_of(name)
    paths = woken_by(parts, before)
    assert paths
    for path in paths:
        pack = pack_of(parts, disputing(path))
        assert path not in pack.plan.used_paths
        assert pack.plan.turn_on.pair is None or pack.plan.turn_on != before.plan.turn_on
        assert pack.kind != "tap_plan" or pack.plan.turn_on.kind != "none"
        assert "disputed: two meters disagree" in said(pack) + ladder_words(pack)


def ladder_words(pack: WorkPack) -> str:
    return "\n".join(rung.because for rung in pack.plan.ladder)


# -- what the job itself says -----------------------------------------------------------------


@pytest.mark.parametrize("name", ["leto-four-doors", "rook-two-amplifiers"])
@pytest.mark.parametrize("asked", ["addon", "none"])
def test_a_driven_pair_that_stays_on_the_car(name: str, asked: str) -> None:
    parts = shipped_parts(name)
    what = replace(parts.job, treatments=Treatments(front_left=asked))
    pack = pack_of(replace(parts, job=what))
    assert pack.kind == "no_plan" and "one of them is destroyed" in said(pack)


@pytest.mark.parametrize("name", ["tansy-subwoofer", "teasel-subwoofer", "tarn-subwoofer"])
def test_a_broken_pair_without_a_return(name: str) -> None:
    parts = shipped_parts(name)
    channel = parts.job.speakers[0].plays[0]
    pack = pack_of(
        replace(parts, job=replace(parts.job, treatments=read(Treatments, {channel: "intercept"})))
    )
    assert pack.kind == "no_plan" and f"{channel_name(channel)} has no return" in said(pack)


@pytest.mark.parametrize("name", SHIPPED)
def test_on_a_car_of_another_year(name: str) -> None:
    parts = shipped_parts(name)
    car = replace(parts.job.car, year=parts.vehicle.scope.year_to + 1)
    pack = pack_of(replace(parts, job=replace(parts.job, car=car)))
    assert pack.kind == "no_plan" and "this record is about other cars" in said(pack)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_route_beside_high_voltage(name: str) -> None:
    parts = shipped_parts(name)
    zone = parts.job.routes[0].zones[0] if parts.job.routes[0].zones else "right floor"
    routes = (replace(parts.job.routes[0], zones=(zone,)), *parts.job.routes[1:])
    safety = replace(parts.vehicle.safety, high_voltage_zones=(zone,))
    spoilt = replace(
        parts,
        job=replace(parts.job, routes=routes),
        vehicle=replace(parts.vehicle, safety=safety),
    )
    pack = pack_of(spoilt)
    assert pack.kind == "no_plan" and f"orange cables run in {zone}" in said(pack)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_load_too_low(name: str) -> None:
    parts = shipped_parts(name)
    first, *rest = parts.job.speakers
    low = replace(parts.job, speakers=(replace(first, nominal_ohm=0.5), *rest))
    pack = pack_of(replace(parts, job=low))
    assert pack.kind == "no_plan" and "the load is too low" in said(pack)


@pytest.mark.parametrize("name", SHIPPED)
def test_no_cable_with_a_pair(name: str) -> None:
    parts = shipped_parts(name)
    pack = pack_of(replace(parts, cables=()))
    assert pack.kind == "no_plan" and "find no core" in said(pack)
