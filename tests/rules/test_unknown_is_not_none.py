"""What nobody looked for is taken as there: of every key of danger that a vehicle declares.

The keys are walked by their declarations, so that a new one fails here until it is said what a plan
does while it is unknown.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from copy import deepcopy
from typing import Any, NamedTuple

import pytest
from case_files import Case, job_data, pack_of, shelf_of, vehicle_data
from each_case import each

from builder.declaring import Field, fields_of, read
from builder.editing.drafts.vehicle_draft import QUESTIONS
from builder.editing.tabular.car_fields import DEFAULTS
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.parsing import parse_vehicle
from builder.pipeline.checking.job_parts import job_parts
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.caution import Caution
from builder.rendering.pages.cautions import cautions_of
from builder.rules.registry import rules_for
from builder.rules.rule import Scope
from builder.schema_check import check_shape
from builder.source_map import Node, Position, SourceMap


class Danger(NamedTuple):
    """A key of danger: where it is, and its declaration."""

    path: str
    field: Field


def dangers(cls: type = Vehicle, path: str = "") -> Iterator[Danger]:
    for each_field in fields_of(cls):
        here = f"{path}.{each_field.key}".lstrip(".")
        if each_field.spec.settles:
            yield Danger(here, each_field)
        if each_field.inner is not None:
            yield from dangers(each_field.inner, f"{here}.0" if each_field.item else here)


BESIDE: dict[str, dict[str, Any]] = {
    "safety.restraint_wait_min": {"safety.restraint_zones": ["left luggage side"]},
    "safety.high_voltage_zones": {"features.hybrid": "yes"},
    "access.0.restraint": {
        "access": [{"name": "trim", "kind": "panel", "uncovers": ["radio"], "restraint": "no"}]
    },
}
"""What else such a car has, so that the key matters."""


def unknown_value(field: Field) -> object:
    return ["unknown"] if field.item is not None else "unknown"


def changed(danger: Danger, unknown: bool) -> dict[str, Any]:
    change = {"safety.restraint_wait_min": 10, **deepcopy(BESIDE.get(danger.path, {}))}
    return {**change, danger.path: unknown_value(danger.field)} if unknown else change


def vehicle_of(danger: Danger, unknown: bool) -> Vehicle:
    return parse_vehicle(vehicle_data({"set": changed(danger, unknown)}))


def pack_on(danger: Danger, unknown: bool) -> WorkPack:
    case = Case("SAF103", "failing", {"vehicle": {"set": changed(danger, unknown)}})
    vehicle = vehicle_of(danger, unknown)
    job = read(Job, job_data(Case("SAF103", "failing", {})))
    parts = job_parts(job, shelf_of(case, [vehicle]), vehicle)
    assert parts is not None
    return pack_of(case, parts)


def gates(pack: WorkPack) -> str:
    return " | ".join(f"{step.text} [{step.gate}] {step.caution}" for step in pack.steps)


def refused(pack: WorkPack) -> str:
    said = (*pack.refusals, *pack.plan.refusals, *pack.plan.because, *pack.because)
    return " | ".join(f"{reason.decision}: {reason.because}" for reason in said)


Does = Callable[[WorkPack], bool]
DOES: dict[str, Does] = {
    "radio.outputs": lambda pack: True,  # read on both legs of each pair, whatever is recorded
    "radio.open_load_check": lambda pack: "nobody tried whether the radio mutes" in refused(pack),
    "radio.removal": lambda pack: "wait before anything near a restraint part" in gates(pack),
    "radio.removal.restraint": lambda pack: "wait before anything near a restraint" in gates(pack),
    "factory_amplifier.feed": lambda pack: pack.kind == "no_plan",
    "features.start_stop": lambda pack: True,  # the caution alone: a drop is looked for in any car
    "features.hybrid": lambda pack: "orange cables" in gates(pack),
    "features.noise_cancellation": lambda pack: "microphones" in refused(pack),
    "features.engine_sound": lambda pack: True,  # the caution alone
    "features.emergency_call": lambda pack: pack.kind == "probe_plan",
    "protected_sounds": lambda pack: pack.kind == "probe_plan" and "own sounds" in refused(pack),
    "power.battery.sensor_on_negative": lambda pack: True,  # the body takes the ground
    "safety.restraint_zones": lambda pack: (
        "not ruled out, so taken as near: left luggage side" in gates(pack)
    ),
    "safety.high_voltage_zones": lambda pack: (
        pack.kind == "no_plan" and "find the orange cables first" in refused(pack)
    ),
    "safety.restraint_wait_min": lambda pack: any(step.blocked for step in pack.steps),
    "access.0.restraint": lambda pack: "wait before anything near a restraint part" in gates(pack),
}
"""What the pack of the base job does while the key is unknown, and does not while it is not."""
CAUTION_ALONE = {
    "radio.outputs",
    "features.start_stop", "features.engine_sound", "power.battery.sensor_on_negative",
}  # fmt: skip


def test_every_key_of_danger_says_what_a_plan_does() -> None:
    assert {danger.path for danger in dangers()} == set(DOES)


@each("danger", [*dangers()], ids=lambda danger: danger.path)
def test_it_can_be_said_in_the_record(danger: Danger) -> None:
    data = vehicle_data({"set": changed(danger, True)})
    assert check_shape("vehicle", data, SourceMap(Node(Position(1, 1))), "x.yaml") == []


@each("danger", [*dangers()], ids=lambda danger: danger.path)
def test_it_is_told_first_with_who_settles_it(danger: Danger) -> None:
    mine = [c for c in told(danger, True) if danger.field.spec.settles in c.text]
    assert mine and all(caution.unknown or "wait" in caution.text for caution in mine)
    assert [c for c in told(danger, False) if danger.field.spec.settles in c.text] == []
    of_people = [caution for caution in told(danger, True) if caution.weight == "danger"]
    assert of_people == sorted(of_people, key=lambda caution: not caution.unknown)


def told(danger: Danger, unknown: bool) -> tuple[Caution, ...]:
    return cautions_of(vehicle_of(danger, unknown))


@each("danger", [*dangers()], ids=lambda danger: danger.path)
def test_the_check_notes_it(danger: Danger) -> None:
    new = found(danger, True) - found(danger, False)
    assert any(path in danger.path or danger.field.spec.settles in help for path, help in new), new


def found(danger: Danger, unknown: bool) -> set[tuple[str, str]]:
    """Where something is noted, and what is said to do."""
    vehicle = vehicle_of(danger, unknown)
    rules = [
        r for r in rules_for(Scope.RECORD, "vehicle") if r.id in ("SAF114", "SAF118", "PIN115")
    ]
    faults = [fault for rule in rules for fault in rule.check(vehicle)]
    return {(".".join(map(str, fault.path)), fault.help) for fault in faults}


@each("danger", [*dangers()], ids=lambda danger: danger.path)
def test_a_plan_takes_the_worst(danger: Danger) -> None:
    assert DOES[danger.path](pack_on(danger, True))
    if danger.path not in CAUTION_ALONE:
        assert not DOES[danger.path](pack_on(danger, False))


@pytest.mark.parametrize("zones", [["unknown"], ["floor tunnel", "unknown"]])
def test_a_zone_beside_unknown_leaves_the_rest_not_ruled_out(zones: list[str]) -> None:
    change = {"safety.restraint_zones": zones}
    vehicle = parse_vehicle(vehicle_data({"set": change}))
    title = next(c.title for c in cautions_of(vehicle) if c.topic == "restraints")
    assert title.startswith("Restraint parts not looked for")
    assert ("floor tunnel" in title) == (len(zones) == 2)


def test_a_car_whose_zones_were_looked_for_has_no_such_caution() -> None:
    vehicle = parse_vehicle(vehicle_data({}))
    assert [c for c in cautions_of(vehicle) if c.unknown] == []


def test_no_way_in_leads_to_none() -> None:
    """Who skips a question, or a row of a table, says that nobody looked."""
    defaults = {q.path: q.default for q in QUESTIONS if q.path}
    for path in (
        ("safety", "restraint_zones"), ("safety", "high_voltage_zones"), ("protected_sounds",),
        ("safety", "restraint_wait_min"), ("features", "hybrid"), ("features", "emergency_call"),
    ):  # fmt: skip
        assert defaults[path] == "unknown", path
        assert DEFAULTS[path] == "unknown", path
