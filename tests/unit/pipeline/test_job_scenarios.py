"""Shipped jobs with one thing changed: the fault an installer would make, and the rule it meets."""

from __future__ import annotations

import copy
from dataclasses import replace
from typing import Any

import pytest
from shipped_cars import car_data

from builder.declaring import read
from builder.findings import Severity
from builder.model.job import Job
from builder.parsing import parse_vehicle
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.jobs import DecidedJob, decide_job
from builder.pipeline.checking.records import read_record

_STRAP = {"supply.strap": {"drop_mv": 1, "at_a": 10}}
"""The car's own straps were read, so that nothing is asked of them."""


def decide(
    shipped: CheckedBook,
    name: str,
    job: dict[str, Any] | None = None,
    vehicle: dict[str, Any] | None = None,
) -> DecidedJob:
    """The job `name` with changes by data path, on its vehicle with changes."""
    files = {file.path.stem: file for file in shipped.book.files()}
    before = read_record(files[name])
    strap = {} if (job or {}).get("supply.ground_point") == "battery_post" else _STRAP
    data = with_boxes(changed(before.data, {**strap, **(job or {})}))
    made = parse_vehicle(changed(car_data(data["vehicle"]), vehicle or {}))
    parts = job_parts(read(Job, data), shipped.shelf, made)
    assert parts is not None
    return decide_job(replace(before, record=parts.job, data=data), parts, Gate())


def with_boxes(data: dict[str, Any]) -> dict[str, Any]:
    """The job with every subwoofer's box described, so that nothing is asked of them."""
    subs = (speaker for speaker in data["speakers"] if speaker["channel"] == "sub")
    for speaker in subs:
        speaker.setdefault("box", {"kind": "sealed"})
    return data


def changed(data: dict[str, Any], changes: dict[str, Any]) -> dict[str, Any]:
    data = copy.deepcopy(data)
    for path, value in changes.items():
        *steps, last = path.split(".")
        at: Any = data
        for step in steps:
            at = at[int(step)] if isinstance(at, list) else at[step]
        at[int(last) if isinstance(at, list) else last] = value
    return data


def open_rules(made: DecidedJob, least: Severity = Severity.WARN) -> set[str]:
    return {f.rule_id for f in made.findings if f.severity <= least and f.accepted is None}


def messages(made: DecidedJob, rule: str) -> str:
    return "\n".join(found.message for found in made.findings if found.rule_id == rule)


def test_a_thinner_supply_loses_too_much(shipped: CheckedBook) -> None:
    made = decide(shipped, "tansy-subwoofer", {"supply.size_awg": 6})
    assert open_rules(made) == {"PWR104"}
    assert "0.515 V" in messages(made, "PWR104")
    assert made.pack.kind == "no_plan"


def test_a_two_channel_converter_for_four_doors(shipped: CheckedBook) -> None:
    made = decide(shipped, "leto-four-doors", {"converter": "cvn-2a"})
    assert {"TOP116", "TOP117"} <= open_rules(made)
    assert "4 pairs are wanted" in messages(made, "TOP116")


def test_without_the_amplifier_turn_on_the_lights_warning_is_lost(shipped: CheckedBook) -> None:
    pins = {f"plugs.0.pins.{at}.function": "not_used" for at in (10,)}
    assert "TOP113" not in open_rules(decide(shipped, "leto-four-doors"))
    made = decide(shipped, "leto-four-doors", vehicle=pins)
    assert made.pack.plan.ladder[0].verdict == "absent"
    assert "lights-left-on warning plays with the key off" in messages(made, "TOP113")


def test_seven_pairs_on_six_inputs(shipped: CheckedBook) -> None:
    rears = {
        "treatment.rear-left": "addon",
        "treatment.rear-right": "addon",
        "speakers.2.from": ["sub", "rear-left", "rear-right"],
    }
    made = decide(shipped, "ullin-split-fronts", rears)
    assert "7 pairs are wanted" in messages(made, "TOP116")


def test_all_seats_closes_the_delay(shipped: CheckedBook) -> None:
    late = decide(shipped, "ullin-split-fronts")
    assert "125.3°" in messages(late, "TOP120")
    assert "-6.75 dB" in messages(late, "TOP120")
    on_time = decide(
        shipped,
        "ullin-split-fronts",
        {
            "accept": [
                {"rule": "TOP112", "reason": "47 ohms across each pair", "who": "me"},
            ]
        },
        vehicle={"channels.3.delay_ms": 0.03, "channels.5.delay_ms": 0.03},
    )
    assert messages(on_time, "TOP120") == ""
    assert on_time.pack.kind == "tap_plan"


def test_a_sensor_on_the_post_wants_the_body(shipped: CheckedBook) -> None:
    assert open_rules(decide(shipped, "teasel-subwoofer")) == set()
    made = decide(shipped, "teasel-subwoofer", {"supply.ground_point": "battery_post"})
    assert open_rules(made) == {"PWR107"}


def test_a_restart_nobody_timed_drops_the_turn_on(shipped: CheckedBook) -> None:
    plugs = car_data("cindral-teasel-2023")["plugs"]
    for pin in (pin for plug in plugs for pin in plug["pins"] if pin["function"] == "constant"):
        for reading in pin.get("readings", ()):
            reading.pop("lasts_s", None)
    made = decide(shipped, "teasel-subwoofer", vehicle={"plugs": plugs})
    assert open_rules(made) == {"ONN105"}


def test_the_old_wires_share_their_return(shipped: CheckedBook) -> None:
    wires = {
        "speakers.0.existing": "yes",
        "speakers.0.existing_lead": {"size_awg": 20, "length_m": 3.5},
        "treatment.front-left": "intercept",
    }
    made = decide(shipped, "cutter-fronts", wires)
    assert "TOP115" in open_rules(made, Severity.STOP)
    assert made.pack.kind == "no_plan"


def test_everything_on_the_radio_is_too_much_for_its_turn_on(shipped: CheckedBook) -> None:
    shelf = shipped.shelf
    bare = replace(shelf.converters["cvn-6s"], remote_out=None)
    without = replace(
        shipped, shelf=replace(shelf, converters={**shelf.converters, "cvn-6s": bare})
    )
    made = decide(without, "rook-two-amplifiers")
    first = made.pack.plan.ladder[0]
    assert (first.kind, first.verdict) == ("amplifier_on", "refused")
    assert "195 mA" in first.because
    assert open_rules(decide(shipped, "rook-two-amplifiers")) == set()


def test_a_second_fan_is_too_much_for_the_remote_output(shipped: CheckedBook) -> None:
    fans = {"name": "fans", "draw_ma": 480, "coil": "no"}
    made = decide(shipped, "rook-two-amplifiers", {"other_turn_on_loads": [fans]})
    assert "draw 517 mA" in messages(made, "ONN103")
    assert "ONN103" in open_rules(made, Severity.STOP)
    assert made.pack.kind == "no_plan"


@pytest.mark.parametrize(
    ("size", "rules"), [(16, {"CAB104", "CAB108"}), (12, {"CAB108"}), (10, set())]
)
def test_the_lead_of_a_large_subwoofer(shipped: CheckedBook, size: int, rules: set[str]) -> None:
    made = decide(shipped, "rook-two-amplifiers", {"speakers.4.lead.size_awg": size})
    assert open_rules(made) == rules


def test_clad_aluminium_stands_less_and_loses_more(shipped: CheckedBook) -> None:
    clad = {"supply.material": "copper_clad_aluminium", "supply.size_awg": "1/0"}
    made = decide(shipped, "rook-two-amplifiers", clad)
    assert {"PWR101", "PWR104", "PWR108"} <= open_rules(made)
    assert "at most 126.75 A" in messages(made, "PWR101")


def test_a_relay_without_its_diode(shipped: CheckedBook) -> None:
    made = decide(shipped, "rook-two-amplifiers", {"other_turn_on_loads.0.diode": "no"})
    assert open_rules(made) == {"ONN104"}


def test_doors_in_surround_lack_their_centre(shipped: CheckedBook) -> None:
    doors = {"speakers.0.from": ["front-left"], "treatment": {"front-left": "addon"}}
    assert "TOP123" in open_rules(decide(shipped, "lovage-mid-subwoofer", doors))
    assert open_rules(decide(shipped, "lovage-mid-subwoofer")) == set()


@pytest.mark.parametrize(("feed", "rule"), [("analogue_fixed", "TOP124"), ("digital", "TOP125")])
def test_a_tap_at_the_radio_before_the_amplifier(
    shipped: CheckedBook, feed: str, rule: str
) -> None:
    at_radio = {"factory_amplifier.feed": feed, "channels.4.driven_by": "radio"}
    made = decide(shipped, "lovage-mid-subwoofer", vehicle=at_radio)
    assert rule in open_rules(made, Severity.STOP)


def test_the_emergency_call_must_not_hang_on_the_amplifier(shipped: CheckedBook) -> None:
    door = {
        "speakers.0.channel": "front-left",
        "speakers.0.existing": "yes",
        "speakers.0.from": ["front-left"],
        "treatment": {"front-left": "intercept"},
    }
    made = decide(shipped, "tarn-subwoofer", door)
    assert "TOP114" in open_rules(made, Severity.STOP)
    assert made.pack.kind == "no_plan"


def test_the_other_sill_holds_orange_cable(shipped: CheckedBook) -> None:
    sill = {"routes.0.zones": ["right sill from the rear bench to the tail"]}
    made = decide(shipped, "tarn-subwoofer", sill)
    assert "SAF103" in open_rules(made, Severity.STOP)
    assert made.pack.kind == "no_plan"


def test_an_answer_that_leads_to_another_trim(shipped: CheckedBook) -> None:
    made = decide(shipped, "lovage-mid-subwoofer", {"car.answers.0.answer": "yes"})
    assert "TOP103" in open_rules(made, Severity.STOP)
    unasked = decide(shipped, "lovage-mid-subwoofer", {"car.answers": []})
    assert "TOP104" in open_rules(unasked, Severity.STOP)
