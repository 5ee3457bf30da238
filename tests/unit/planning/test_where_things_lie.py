"""Sheets say where a thing lies: a new speaker, the car's battery, each cable on its way."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.circuit.index import CircuitIndex
from builder.planning.course.laying import AT_HAND_M
from builder.planning.job.make_pack import make_pack
from builder.planning.views.cut_rows import pieces_of
from builder.rendering.pages.fitted_facts import fitted_facts
from builder.rendering.pages.job_phrases import power_facts

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


@pytest.mark.parametrize("name", JOBS)
def test_a_new_speaker_has_one_place_on_every_sheet(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    assert pack.circuit is not None
    units = {unit.id: unit for unit in pack.circuit.units}
    facts = {fact.label: fact.value for fact in fitted_facts(parts.job)}
    for speaker in parts.job.speakers:
        if speaker.place is None:
            continue
        assert units[speaker.name].place == speaker.place
        assert f"new, {speaker.place};" in facts[speaker.name]
        mine = [row for row in pack.joints if f" and {speaker.name} +" in row.meets]
        assert mine and {row.place for row in mine} == {speaker.place}
        (fixed,) = [step for step in pack.steps if step.text.startswith(f"{speaker.name} (")]
        assert f"({speaker.place})" in fixed.text
        out = f"{speaker.name.capitalize()} ({speaker.place}) out"
        assert any(line.startswith(out) for line in pack.revert)
    assert any(each.place for each in parts.job.speakers) or name in (
        "sedge-fronts", "leto-four-doors", "teasel-four-doors", "cutter-fronts",
    )  # fmt: skip


def test_a_speaker_without_a_place_says_that_nobody_gave_it_one() -> None:
    parts = shipped_parts("teasel-subwoofer")
    (sub,) = parts.job.speakers
    job = replace(parts.job, speakers=(replace(sub, place=None),))
    pack = make_pack(replace(parts, job=job), defaults=HOUSE)
    (fixed,) = [step for step in pack.steps if step.text.startswith("subwoofer fixed")]
    assert "where and how are not on record" in fixed.text
    (fact,) = [each for each in fitted_facts(job) if each.label == "subwoofer"]
    assert "its place is not said" in fact.value


@pytest.mark.parametrize("name", JOBS)
def test_the_battery_is_found_by_who_takes_its_negative_off(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    battery = parts.vehicle.power.battery
    off = [step for step in pack.steps if "battery negative off" in step.text]
    assert off and all(f"({battery.location})" in step.text for step in off)
    assert pack.power is not None
    (fact,) = [x for x in power_facts(pack.power, parts) if x.label == "The car's battery"]
    assert fact.value.startswith(f"{battery.location};")


@pytest.mark.parametrize("name", JOBS)
def test_every_cable_that_goes_somewhere_says_its_way_or_asks_for_it(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    assert pack.circuit is not None
    (lay,) = [step for step in pack.steps if step.text.startswith("lay every cable")]
    for piece, wires in pieces_of(CircuitIndex(pack.circuit)).items():
        if wires[0].loom or (wires[0].length_m or 0.0) <= AT_HAND_M:
            continue
        (said,) = [x for x in lay.lines if piece in x.partition(": ")[0].split(", ")]
        assert (f"along {wires[0].way}" in said) if wires[0].way else ("on no record" in said)
    for route in parts.job.routes:
        assert all(any(zone in line for line in lay.lines) for zone in route.zones), route


def test_the_tansy_is_opened_on_the_side_that_its_job_means() -> None:
    for name in ("tansy-subwoofer", "tansy-subwoofer-finished", "tansy-two-coils"):
        steps = " ".join(step.text for step in shipped_pack(name).steps)
        assert "right luggage trim off" in steps and "left luggage trim" not in steps


@pytest.mark.parametrize("way", ["relay", "dc_charger", "diode"])
def test_what_joins_two_batteries_is_fitted_on_the_customer_s_sheet(way: str) -> None:
    parts = shipped_parts("rook-second-battery")
    second = parts.job.supply.second_battery
    assert second is not None
    told = replace(second, joined_by=way, charger_a=20 if way == "dc_charger" else None)
    supply = replace(parts.job.supply, second_battery=told)
    pack = make_pack(replace(parts, job=replace(parts.job, supply=supply)), defaults=HOUSE)
    (fitted,) = [line for line in pack.customer if line.startswith("Fitted: ")]
    joins = {"relay": "relay", "dc_charger": "charger", "diode": "diode"}[way]
    assert "second battery" in fitted and f"{joins} of the second battery" in fitted
