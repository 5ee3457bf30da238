"""What holds of every work pack, whatever the job."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from circuit_checks import check_circuit
from hypothesis import given, settings
from hypothesis import strategies as st
from pack_jobs import (
    CORNERS,
    HOUSE,
    SHIPPED,
    door,
    job,
    parts_of,
    route,
    shipped_parts,
    subwoofer,
    supply,
    with_supply,
)
from plan_cars import (
    accessory,
    amplifier_on,
    bridged_pair,
    channel,
    claimed_pair,
    doors_car,
    plug,
    retained,
)
from samples import many
from spice_checks import check_deck

from builder.model.vehicle import Vehicle
from builder.planning.job.make_pack import make_pack
from builder.planning.power.conductors import choice_awg, fuse_ceiling_a
from builder.planning.trust import LISTENING, RELIABLE, grade_by_readings, worst_band
from builder.planning.turn_on.loads import turn_on_pin
from builder.planning.work_pack import JobParts, WorkPack

Data = dict[str, Any]
WORDS = {conductor.words: conductor for conductor in choice_awg()}
MODEST = settings(max_examples=many(200), deadline=None)

GRADES = st.lists(st.sampled_from(["measured"] * 6 + ["claimed"]), min_size=4, max_size=4)
DRIVEN = st.lists(st.booleans(), min_size=4, max_size=4).filter(any)
TURN_ON = st.sampled_from([retained(9), accessory(9), amplifier_on(9, max_source_ma=250), None])


def car_with(grades: list[str], turn_on: Data | None, open_load: str) -> Vehicle:
    make = {"measured": bridged_pair, "claimed": claimed_pair}
    pins = [
        pin
        for at, (name, grade) in enumerate(zip(CORNERS, grades, strict=True))
        for pin in make[grade](name, 1 + 2 * at)
    ]
    return doors_car(
        channels=[channel(name) for name in CORNERS],
        plugs=[plug([*pins, *([turn_on] if turn_on else [])])],
        radio={"outputs": "bridged", "open_load_check": open_load, "data_wake": "no"},
    )


@st.composite
def jobs(draw: st.DrawFn) -> JobParts:
    driven = draw(DRIVEN)
    speakers = [
        door(name, at) for at, (name, on) in enumerate(zip(CORNERS, driven, strict=True), 1) if on
    ]
    amplifiers = {"doors": "amn-4"}
    if draw(st.booleans()):
        ends = draw(st.sampled_from([CORNERS[:2], CORNERS[2:]]))
        speakers.append(subwoofer(*ends))
        amplifiers["sub amp"] = "amn-600"
    length = draw(st.floats(0.5, 8))
    routes = [
        route("radio", "converter", "signal", length),
        route("doors", "radio", "amplified", length),
    ]
    what = job(speakers, routes, supply(draw(st.floats(0.5, 9)), draw(st.floats(0.1, 0.5))))
    vehicle = car_with(draw(GRADES), draw(TURN_ON), draw(st.sampled_from(["yes", "no", "unknown"])))
    device = draw(st.sampled_from(["cvn-2a", "cvn-4a", "cvn-6s"]))
    stock = draw(st.sampled_from([("5c",), ("2c", "3c"), ("3c", "5c")]))
    return parts_of(vehicle, what, device, amplifiers, stock)


ALWAYS: list[Callable[[JobParts, WorkPack], None]] = []
"""What holds of every pack; each is asked of the same drawn jobs."""


@MODEST
@given(jobs())
def test_what_always_holds(parts: JobParts) -> None:
    pack = make_pack(parts, defaults=HOUSE)
    for holds in ALWAYS:
        holds(parts, pack)


@ALWAYS.append
def a_fuse_stands_between_floor_and_ceiling(parts: JobParts, pack: WorkPack) -> None:
    if pack.kind != "tap_plan":
        return
    assert pack.power is not None
    on_board = sum(amplifier.supply.fuse_a for amplifier in parts.amplifiers.values())
    for run in pack.power.runs:
        assert run.fuse_a is not None
        assert run.current_a <= run.fuse_a <= fuse_ceiling_a(WORDS[run.conductor], HOUSE)
    assert (pack.power.main_fuse_a or 0) >= on_board


@ALWAYS.append
def the_circuit_is_whole(parts: JobParts, pack: WorkPack) -> None:
    if pack.kind == "tap_plan":
        check_circuit(parts, pack)


@ALWAYS.append
def the_netlist_is_the_circuit(parts: JobParts, pack: WorkPack) -> None:
    if pack.kind == "tap_plan":
        check_deck(parts, pack)


@ALWAYS.append
def every_broken_pair_has_a_return(parts: JobParts, pack: WorkPack) -> None:
    broken = {feed.channel for feed in pack.plan.feeds if feed.treatment == "intercept"}
    returned = {
        row.purpose.split(" to its speaker")[0].replace(" ", "-")
        for row in pack.conductors
        if row.demand_class == "amplified" and row.jacket
    }
    assert broken == returned


@ALWAYS.append
def no_conductor_twice_and_none_forgotten(parts: JobParts, pack: WorkPack) -> None:
    places = [(row.jacket, row.place) for row in pack.conductors if row.jacket]
    assert len(places) == len(set(places))
    cables = {cable.id: 2 * len(cable.pairs) + len(cable.singles) for cable in parts.cables}
    jackets = {row.jacket: row.cable for row in pack.conductors if row.jacket}
    assert len(places) == sum(cables[cable] for cable in jackets.values())
    spare = [row for row in pack.conductors if row.demand_class == "spare"]
    ends = [end for end in pack.insulate if " of cable " in end.what]
    assert len(ends) == 2 * len(spare)


@ALWAYS.append
def no_pin_below_its_grade(parts: JobParts, pack: WorkPack) -> None:
    asked = {"intercept": RELIABLE, "addon": LISTENING}
    assert all(feed.grade in asked[feed.treatment] for feed in pack.plan.feeds)
    if pack.kind != "tap_plan":
        assert (pack.plan.feeds, pack.conductors, pack.gains, pack.plan.turn_on.kind) == (
            (), (), (), "none",
        )  # fmt: skip
        assert pack.refusals
    else:
        assert not pack.refusals
        assert {f"{feed.plug}.{feed.cavity}" for feed in pack.plan.feeds} <= read_places(pack)


def read_places(pack: WorkPack) -> set[str]:
    """Pins that the bay sheet asks a proof reading of."""
    return {f"{t.reading.plug}.{t.reading.cavity}" for t in pack.tests if t.reading}


@MODEST
@given(jobs(), st.floats(0.1, 5))
def test_a_longer_supply_never_loses_less(parts: JobParts, more_m: float) -> None:
    parts = with_supply(parts, size_awg="4")
    longer = with_supply(parts, supply_lead_m=(parts.job.supply.supply_lead_m or 0) + more_m)
    short, long = (make_pack(each, defaults=HOUSE).power for each in (parts, longer))
    assert short is not None and long is not None
    assert long.runs[0].drop_v > short.runs[0].drop_v


@ALWAYS.append
def a_tap_plan_has_no_stopping_flag_and_numbered_steps(parts: JobParts, pack: WorkPack) -> None:
    if pack.kind == "tap_plan":
        assert not any(flag.stops for flag in pack.flags)
        assert [test.number for test in pack.tests] == list(range(1, len(pack.tests) + 1))
        phases = [("before", "build", "bench", "close").index(test.phase) for test in pack.tests]
        assert phases == sorted(phases)
    assert [step.number for step in pack.steps] == list(range(1, len(pack.steps) + 1))
    assert make_pack(parts, defaults=HOUSE) == pack


@pytest.mark.parametrize("name", SHIPPED)
def test_nothing_of_a_barred_pin(name: str) -> None:
    """Bar each pin that a shipped job uses: it is used no more."""
    parts = shipped_parts(name)
    plan = make_pack(parts, defaults=HOUSE).plan
    buses = {pin.path for plug in parts.vehicle.plugs for pin in plug.pins
             if pin.function in ("data_high", "data_low", "data_single")}  # fmt: skip
    switching = {plan.turn_on.path, *buses}  # without it another place may switch on
    for path in plan.used_paths:
        pack = make_pack(parts, defaults=HOUSE, barred={path: "PIN999: a stop"})
        assert path not in pack.plan.used_paths
        if path not in switching:
            assert pack.kind == "no_plan" and "PIN999" in str(pack.refusals)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_record_that_may_not_be_used_at_all(name: str) -> None:
    pack = make_pack(shipped_parts(name), defaults=HOUSE, barred={("scope",): "VEH999: a stop"})
    assert (pack.kind, pack.plan.feeds, pack.steps) == ("no_plan", (), ())
    assert pack.power is not None  # relies on no pin


@pytest.mark.parametrize("name", SHIPPED)
def test_the_grade_is_that_of_the_weakest_pin(name: str) -> None:
    parts = shipped_parts(name)
    grade = grade_by_readings(HOUSE)
    pack = make_pack(parts, defaults=HOUSE)
    if pack.kind == "tap_plan":
        bands = [feed.grade for feed in pack.plan.feeds]
        pin = turn_on_pin(parts.vehicle, pack.plan.turn_on)
        bands += [] if pin is None else [grade(parts.vehicle, pin).band]
        assert pack.plan.grade == worst_band(bands)


def test_order_of_speakers_changes_no_figure() -> None:
    parts = shipped_parts("rook-two-amplifiers")
    turned = replace(parts, job=replace(parts.job, speakers=parts.job.speakers[::-1]))
    one, other = (make_pack(each, defaults=HOUSE) for each in (parts, turned))
    assert {chain.speaker: chain for chain in one.levels} == {
        chain.speaker: chain for chain in other.levels
    }
    assert one.plan.feeds == other.plan.feeds
    jackets = [[row for row in pack.conductors if row.jacket] for pack in (one, other)]
    assert jackets[0] == jackets[1]  # line outputs are numbered as the speakers ask for them
