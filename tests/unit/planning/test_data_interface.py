"""Rung 6 of the turn-on ladder: a data interface of the shelf that fits the car."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from pack_samples import record, shelf
from shipped_cars import car

from builder.findings import Finding, Severity
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Interface
from builder.pipeline.checking.gate import Gate, usable_interfaces
from builder.pipeline.checking.job_parts import job_parts
from builder.planning.car.selection import Selection
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.job.make_pack import make_pack
from builder.planning.trust import Trust, grade_by_readings
from builder.planning.turn_on.choice import TurnOnChoice, choose_turn_on
from builder.planning.work_pack import WorkPack
from builder.proof.faces.turning import turned

SHELF = shelf()
DEFAULTS = HouseDefaults()
TEASEL = turned(car("cindral-teasel-2023"), SHELF.housings)
BUS_ONLY = replace(TEASEL, fuse_positions=())
"""The same car without its switched fuse position: nothing but its bus says that it is on."""
OK, TSM = SHELF.interfaces["ok-7n"], SHELF.interfaces["tsm-9n"]
ACTIVE = SHELF.converters["cvn-2a"]
QUIET = replace(
    ACTIVE, turn_on=replace(ACTIVE.turn_on, offset_wake=None, signal_wake=None)
)  # wakes from nothing else


def chosen(*interfaces: Interface, vehicle=BUS_ONLY, draw_ma=None, barred=None) -> TurnOnChoice:
    trust = Trust(vehicle, grade_by_readings(DEFAULTS), barred or {})
    return choose_turn_on(
        vehicle, QUIET, Selection("x"), trust, DEFAULTS, draw_ma, interfaces=interfaces
    )


def rung(choice: TurnOnChoice) -> tuple[str, str]:
    (found,) = [each for each in choice.ladder if each.rung == 6]
    return found.verdict, found.because


@pytest.mark.parametrize("interfaces", [(), (TSM,)], ids=["no interface", "one of another bus"])
def test_without_one_that_fits_the_shelf_says_so(interfaces):
    choice = chosen(*interfaces)
    assert rung(choice) == ("absent", "no interface on this shelf fits")
    assert choice.turn_on.kind == "none"


def test_one_that_fits_switches_it_on_with_its_own_current():
    choice = chosen(OK)
    assert rung(choice)[0] == "chosen"
    turn_on = choice.turn_on
    assert (turn_on.rung, turn_on.kind, turn_on.interface) == (6, "data_interface", "ok-7n")
    assert (turn_on.plug, turn_on.cavity, turn_on.fuse_position, turn_on.pair) == (None,) * 4
    assert (turn_on.draw_ma, turn_on.capacity_ma) == (QUIET.remote_in.draw_ma, 150)
    assert "amplifier turn-on output, by its own plug at plug B" in turn_on.because


def test_a_better_rung_leaves_it_possible():
    choice = chosen(OK, vehicle=TEASEL)
    assert (choice.turn_on.kind, rung(choice)[0]) == ("fuse_position", "possible")


@pytest.mark.parametrize(
    ("draw_ma", "verdict", "capacity_ma"),
    [(75, "chosen", 150), (75.1, "chosen", 1000), (500, "chosen", 1000), (500.1, "refused", None)],
)
def test_it_gives_half_of_what_an_output_can(draw_ma, verdict, capacity_ma):
    """At the house's share of one half: 150 mA, then the accessory output with 1000 mA."""
    assert DEFAULTS.source_share == 0.5
    choice = chosen(OK, draw_ma=draw_ma)
    assert rung(choice)[0] == verdict
    assert choice.turn_on.capacity_ma == capacity_ma


def test_one_that_gives_lights_and_reverse_alone_is_no_turn_on():
    other = tuple(each for each in OK.outputs if each.function in ("illumination", "reverse"))
    assert rung(chosen(replace(OK, outputs=other)))[0] == "absent"


def test_a_bus_that_nobody_proved_is_read_first():
    plug = BUS_ONLY.plug("B")
    bare = tuple(
        replace(pin, readings=()) if pin.function.startswith("data") else pin for pin in plug.pins
    )
    plugs = tuple(replace(plug, pins=bare) if each is plug else each for each in BUS_ONLY.plugs)
    choice = chosen(OK, vehicle=replace(BUS_ONLY, plugs=plugs))
    (objection,) = choice.objections
    assert objection.reason.decision == "prove B.1 and B.11 before it switches anything on"
    assert {(each.plug, each.cavity) for each in objection.settled_by} == {("B", "1"), ("B", "11")}


def test_a_barred_data_wire_refuses_it():
    path = next(p.path for p in BUS_ONLY.plug("B").pins if p.function == "data_low")
    choice = chosen(OK, barred={path: "MET118: no"})
    assert rung(choice) == ("refused", "MET118: no")


def test_its_plan_says_how_it_is_joined_and_what_stays_on():
    held = replace(OK, outputs=(replace(OK.outputs[0], hold_s=45),))
    choice = chosen(held)
    said = " ".join(reason.decision + reason.because for reason in choice.reasons)
    assert "feed OK-7N behind its own 2 A fuse" in said
    assert "its own plug and nobody taps a data wire; asleep it draws 2.5 mA" in said
    assert choice.losses == ("The new amplifier stays on for 45 s after the key is off.",)


def test_a_plan_is_as_good_as_the_bus_is_proved():
    plan = make_plan(BUS_ONLY, QUIET, defaults=DEFAULTS, interfaces=[OK])
    assert (plan.kind, plan.turn_on.kind) == ("tap_plan", "data_interface")
    relied_on = {("B", "1"), ("B", "11"), ("A", "13"), ("A", "14")}  # the bus, and what feeds it
    assert relied_on <= {(test.plug, test.cavity) for test in plan.tests}
    paths = {(plug.id, pin.cavity): pin.path for plug in BUS_ONLY.plugs for pin in plug.pins}
    assert {paths[each] for each in relied_on} <= set(plan.used_paths)


def interface_job():
    """The shipped job of that car, its turn-on lead from where the interface is."""
    job = record("jobs/teasel-subwoofer.yaml")
    routes = tuple(
        replace(route, from_place="data interface") if route.from_place == "F14" else route
        for route in job.routes
    )
    job = replace(job, routes=routes)
    converters = {**SHELF.converters, job.converter: replace(
        SHELF.converters[job.converter], turn_on=QUIET.turn_on
    )}  # fmt: skip
    return job_parts(job, replace(SHELF, converters=converters), BUS_ONLY)


def test_a_work_pack_fits_it_lists_it_and_takes_it_out_again():
    pack = make_pack(interface_job(), defaults=DEFAULTS)
    assert (pack.kind, pack.plan.turn_on.interface) == ("tap_plan", "ok-7n")
    lines = [line for step in pack.steps for line in step.lines]
    assert any("OK-7N GND: " in line for line in lines)
    assert any("holder of the fuse of OK-7N (2 A): " in line for line in lines)
    assert any(line.startswith("OK-7N out and ") for line in lines)
    assert any("Unplug OK-7N at both ends" in line for line in pack.revert)
    assert _undone(pack, "A.14: take OK-7N GND off and close the insulation")
    assert _undone(
        pack, "A.13: take holder of the fuse of OK-7N (2 A) off and close the insulation"
    )
    undone = {row.link: row.way_back for row in pack.wiring}
    for fed in ("supply of OK-7N", "ground of OK-7N"):
        assert undone[fed] == "take it off and close the insulation"
    assert undone["supply of sub amp +12 V"] == "take it off"
    (source,) = [each.source for each in pack.because if each.decision.startswith("feed OK-7N")]
    assert source == "the data interface's record"
    data = {pin.path for plug in BUS_ONLY.plugs for pin in plug.pins if "data" in pin.function}
    assert data and pack.circuit is not None
    cavities = {end for joint in pack.circuit.joints for end in joint.joins}
    assert not cavities & {
        f"{plug.id}.{pin.cavity}" for plug in BUS_ONLY.plugs for pin in plug.pins
        if pin.path in data
    }  # fmt: skip
    notes = {line.item: line.note for line in pack.parts}
    assert notes["OK-7N"] == "Okelund Sound; data interface"
    assert any("OK-7N" in each.note and each.item == "fuse 2 A, blade" for each in pack.parts)
    (draw,) = [draw for draw in pack.turn_on_draws if draw.output == "turn-on output of OK-7N"]
    assert draw.capacity_ma == 150


@pytest.mark.parametrize(("weight", "left"), [("STOP", ["tsm-9n"]), ("WARN", ["ok-7n", "tsm-9n"])])
def test_one_on_which_a_stop_stands_is_not_on_the_shelf(weight, left):
    found = Finding("f.yaml", 1, 1, Severity[weight], "LOM101", "s", "m", "h", ())
    usable = usable_interfaces(SHELF, Gate({("interface", "ok-7n"): [found]}))
    assert [each.id for each in usable] == left


def _plan_of(vehicle, barred=None):
    return make_plan(vehicle, QUIET, defaults=DEFAULTS, interfaces=[OK], barred=barred)


@pytest.mark.parametrize("cavity", ["13", "14"])
def test_a_wire_that_it_is_joined_at_is_proved_as_any_supply(cavity):
    """Nobody read it: the plan asks for that first, and joins nothing. A barred one stops it."""
    (plug,) = [each for each in BUS_ONLY.plugs if each.id == "A"]
    pins = tuple(replace(p, readings=()) if p.cavity == cavity else p for p in plug.pins)
    others = (replace(each, pins=pins) if each.id == "A" else each for each in BUS_ONLY.plugs)
    plan = _plan_of(replace(BUS_ONLY, plugs=tuple(others)))
    assert plan.kind == "probe_plan"
    assert [each.decision for each in plan.refusals] == [
        f"prove A.{cavity} before OK-7N hangs on it"
    ]
    assert {(test.plug, test.cavity) for test in plan.tests} == {("A", cavity)}
    (pin,) = [pin for pin in plug.pins if pin.cavity == cavity]
    barred = _plan_of(BUS_ONLY, {pin.path: "two sources disagree"})
    assert (barred.kind, barred.refusals[0].because) == ("no_plan", "two sources disagree")
    assert _plan_of(BUS_ONLY).kind == "tap_plan"


def _undone(pack: WorkPack, what: str) -> bool:
    """Whether a line of the way back says it, of the radio's plug A."""
    lines = [each for each in pack.revert if each.startswith(what)]
    return len(lines) == 1 and lines[0].endswith("(radio plug A).")


def hours_of(job) -> tuple[float, str]:
    pack = make_pack(job, defaults=DEFAULTS)
    (because,) = [x.because for x in pack.power.because if x.decision.startswith("hours at ")]
    return pack.power.listening_h, because


def drawing(awake_ma: float | None):
    job = interface_job()
    more = replace(OK, supply=replace(OK.supply, awake_ma=awake_ma))
    return replace(job, shelf=replace(job.shelf, interfaces={"ok-7n": more}))


def test_what_it_draws_at_work_shortens_the_hours_and_is_told():
    """By the current alone: the same ampere-hours over 1 A more."""
    (little, said), (much, told) = hours_of(drawing(0.0)), hours_of(drawing(1000.0))
    assert "data interface" not in said and "the data interface 1.00 A, " in told
    whole = {
        name: float(re.search(r"([\d.]+) A more at", text)[1]) for name, text in
        (("said", said), ("told", told))
    }  # fmt: skip
    assert whole["said"] == whole["told"]
    car, added, music = (float(each) for each in re.findall(r"([\d.]+) A", said))
    assert little / much == pytest.approx(
        (car + added + music + 1) / (car + added + music), rel=0.01
    )


def test_one_that_does_not_say_counts_with_what_it_draws_asleep():
    unknown, asleep = hours_of(drawing(None)), hours_of(drawing(OK.supply.idle_ma))
    assert unknown == asleep
