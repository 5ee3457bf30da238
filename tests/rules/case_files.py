"""The case files of the rules: small changes to a base record, and what a rule finds in it.

cases/PIN101.yaml holds `passing` and `failing`, each a list of cases:

    name       what the case shows
    set        data path -> new value in the base vehicle; an index one past the end appends
    delete     data paths taken out
    vehicles   for rules over a book: a list of {set, delete}, one for each vehicle
    housings   data path -> new value in the base housings
    photos     what lies beside the vehicle, by the names of photos: {faults, told, size_bytes, …}
    contributors  data path -> new value in the base contributors
    without    base contributors taken out
    defaults   house defaults that differ
    as_of      the day the book is checked for
    expect     failing cases only: every fault, as {path, message, severity, vehicle, not_known};
               `not_known` where a rule says of a weight either, fault by fault

Cases of plan rules make the plan of the base vehicle and the base converter, and may have `parts`.

Cases of the rules about looms and interfaces change the base loom instead with `set` and `delete`,
and the base interface with

    interface  {set, delete}

which stands on the shelf of a job's case when the case names it.

Cases of job rules change the base job instead, with `set` and `delete`, and have besides:

    vehicle    {set, delete} of the base vehicle
    parts      data path -> new value in the base parts (converters, amplifiers, cables, looms)
    pack       path -> new value in the work pack that was made, for faults no job can bring about
    circuit    {without: [ids taken out], join: [[ends that touch besides]], thin: {wire: AWG}}
    flags      what the planner found wrong, in place of what it did find: {kind, where, says, …}
    steps      the steps of the pack, in place of its own: {phase, text, gate}
    tests      the lines of the bay sheet, in place of its own: {id, phase, what, low, high, unit}
    no_vehicle true: the book has no record of the vehicle
"""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from builder.declaring import read
from builder.findings import NOT_YET_KNOWN, Fault, Says, Severity
from builder.loading import load_file
from builder.model.book import Shelf
from builder.model.contributor import Contributor
from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.job import Job
from builder.model.parts import Amplifier, Cable, Converter, Interface, Loom
from builder.model.photo_file import PhotoFile
from builder.model.summary import summarise
from builder.model.vehicle import Vehicle
from builder.parsing import (
    parse_vehicle,
)
from builder.pipeline.checking.job_parts import job_parts
from builder.planning.circuit.model import Joint
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.job.make_pack import make_pack
from builder.planning.pack_details import PackFlag
from builder.planning.power.conductors import Conductor
from builder.planning.sheet_rows import Step
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.proof.contributors import counted_as, with_counts
from builder.proof.faces.turning import turned
from builder.proof.recorded_sound import with_recorded_sound
from builder.rules.registry import BY_ID
from builder.rules.rule import Rule, Scope

HERE = Path(__file__).parent
CASES = HERE / "cases"
Found = tuple[str, str, Severity, str, Says]


@dataclass(frozen=True)
class Case:
    """One case of one rule."""

    rule_id: str
    kind: str  # passing | failing
    data: dict[str, Any]

    def __str__(self) -> str:
        return f"{self.rule_id}-{self.kind}-{self.data['name']}".replace(" ", "-")


@cache
def read_yaml(path: Path) -> dict[str, Any]:
    loaded = load_file(path, path.name)
    assert loaded.data is not None, loaded.findings
    return loaded.data


def read_cases(rule_id: str) -> list[Case]:
    path = CASES / f"{rule_id}.yaml"
    if not path.is_file():
        return []
    data = read_yaml(path)
    assert set(data) <= {"passing", "failing"}, path.name
    return [Case(rule_id, kind, case) for kind in data for case in data[kind]]


def patched(base: Any, changes: dict[str, Any], deletions: list[str]) -> Any:
    data = _copied(base)
    for path, value in changes.items():
        parent, last = _walk(data, path)
        if isinstance(parent, list) and int(last) == len(parent):
            parent.append(value)
        else:
            parent[int(last) if isinstance(parent, list) else last] = value
    for path in deletions:
        parent, last = _walk(data, path)
        del parent[int(last) if isinstance(parent, list) else last]
    return data


def _copied(data: Any) -> Any:
    """Mappings and lists anew; what else a text can hold never changes."""
    if isinstance(data, dict):
        return {key: _copied(value) for key, value in data.items()}
    return [_copied(value) for value in data] if isinstance(data, list) else data


def _walk(data: Any, path: str) -> tuple[Any, str]:
    *steps, last = path.split(".")
    for step in steps:
        data = data[int(step)] if isinstance(data, list) else data[step]
    return data, last


def vehicle_data(change: dict[str, Any]) -> dict[str, Any]:
    base = read_yaml(HERE / "base_vehicle.yaml")
    data: dict[str, Any] = patched(base, change.get("set", {}), change.get("delete", []))
    return data


def as_read(change: dict[str, Any]) -> Vehicle:
    """The changed vehicle, with what its recordings tell."""
    return with_recorded_sound(parse_vehicle(vehicle_data(change)))


def vehicle_changes(case: Case) -> list[dict[str, Any]]:
    if is_about_jobs(case) or is_about_parts(case):
        return [case.data.get("vehicle", {})]
    return case.data.get("vehicles") or [case.data]


def is_about_jobs(case: Case) -> bool:
    rule = BY_ID[case.rule_id]
    return rule.scope in (Scope.JOB, Scope.NAMES) or rule.kinds == ("job",)


def is_about_parts(case: Case) -> bool:
    return bool(
        {"loom", "interface", "housing", "amplifier", "contributor"}.intersection(
            BY_ID[case.rule_id].kinds
        )
    )


def part_data(case: Case) -> dict[str, dict[str, Any]]:
    """The base loom and the base interface by their kinds, changed as the case says."""
    changes = {"loom": case.data, "interface": case.data.get("interface", {})}
    return {
        kind: patched(
            read_yaml(HERE / f"base_{kind}.yaml"), change.get("set", {}), change.get("delete", [])
        )
        for kind, change in changes.items()
    }


def job_data(case: Case) -> dict[str, Any]:
    base = read_yaml(HERE / "base_job.yaml")
    data: dict[str, Any] = patched(base, case.data.get("set", {}), case.data.get("delete", []))
    return data


def parts_data(case: Case) -> dict[str, dict[str, Any]]:
    data: dict[str, dict[str, Any]] = patched(
        read_yaml(HERE / "base_parts.yaml"), case.data.get("parts", {}), []
    )
    return data


def shelf_of(case: Case, vehicles: list[Vehicle]) -> Shelf:
    base = read_yaml(HERE / "base_housings.yaml")
    housings = patched(base, case.data.get("housings", {}), [])
    parts = parts_data(case)
    return Shelf(
        converters={key: read(Converter, data) for key, data in parts["converters"].items()},
        amplifiers={key: read(Amplifier, data) for key, data in parts["amplifiers"].items()},
        cables={key: read(Cable, data) for key, data in parts["cables"].items()},
        looms={key: read(Loom, data) for key, data in parts["looms"].items()},
        housings={key: read(Housing, data) for key, data in housings.items()},
        vehicle_ids=frozenset({vehicle.id for vehicle in vehicles} | {"sister-car"}),
        defaults=replace(HouseDefaults(), **case.data.get("defaults", {})),
        interfaces=_interfaces_of(case),
        contributors=_contributors_of(case),
        as_of=case.data.get("as_of"),
    )


def _interfaces_of(case: Case) -> dict[str, Interface]:
    """The base interface, on the shelf of a job's case only when the case speaks of it."""
    if "interface" not in case.data or not is_about_jobs(case):
        return {}
    return {"base-interface": read(Interface, part_data(case)["interface"])}


def _contributors_of(case: Case) -> dict[str, Contributor]:
    base = read_yaml(HERE / "base_contributors.yaml")
    data = patched(base, case.data.get("contributors", {}), case.data.get("without", []))
    return {key: read(Contributor, each) for key, each in data.items()}


def run_case(rule: Rule, case: Case) -> list[Found]:
    """Every fault of the rule in the case: path, message, severity, vehicle or "", what it says."""
    return [_found(rule, fault, owner) for fault, owner in faults_of(rule, case)]


def faults_of(rule: Rule, case: Case) -> list[tuple[Fault, str]]:
    """Every fault of the rule in the case, with the vehicle that it is about, or ""."""
    vehicles = [as_read(change) for change in vehicle_changes(case)]
    shelf = shelf_of(case, vehicles)
    if rule.scope is Scope.BOOK:
        summaries = [summarise(v, f"{i}.yaml") for i, v in enumerate(vehicles)]
        return [(fault, owner) for owner, fault in rule.run(summaries, shelf)]
    if is_about_parts(case):
        return [(fault, "") for fault in _of_parts(rule, case, shelf)]
    if is_about_jobs(case):
        return [(fault, "") for fault in rule.run(*job_subjects(rule, case, shelf))]
    if rule.scope is Scope.PLAN:
        return [(fault, "") for fault in rule.run(*plan_subjects(vehicles[0], shelf))]
    counts_as = counted_as(vehicles[0].handles, shelf.contributors)
    faced = turned(with_counts(vehicles[0], counts_as), shelf.housings)
    faced = replace(faced, photo_files=_photos_of(case))
    subjects = (faced,) if rule.scope is Scope.RECORD else (faced, shelf)
    return [(fault, "") for fault in rule.run(*subjects)]


def _photos_of(case: Case) -> dict[str, PhotoFile]:
    said = case.data.get("photos", {})
    made = {
        name: {k: tuple(v) if isinstance(v, list) else v for k, v in one.items()}
        for name, one in said.items()
    }
    return {name: PhotoFile(**one) for name, one in made.items()}


def _of_parts(rule: Rule, case: Case, shelf: Shelf) -> list[Fault]:
    data = part_data(case)
    of_kind = {
        "loom": [read(Loom, data["loom"])],
        "interface": [read(Interface, data["interface"])],
        "housing": [*shelf.housings.values()],
        "amplifier": [*shelf.amplifiers.values()],
        "converter": [*shelf.converters.values()],
        "contributor": [*shelf.contributors.values()],
    }
    more = (shelf,) if rule.scope is Scope.PART else ()
    return [f for kind in rule.kinds for part in of_kind[kind] for f in rule.run(part, *more)]


def plan_subjects(vehicle: Vehicle, shelf: Shelf) -> tuple[object, ...]:
    """What a plan rule looks at: a plan with the base converter, the vehicle, and the shelf."""
    device = next(iter(shelf.converters.values()))
    return (make_plan(vehicle, device, defaults=shelf.defaults), vehicle, shelf)


def job_subjects(rule: Rule, case: Case, shelf: Shelf) -> tuple[object, ...]:
    """What a job rule looks at: the job, the job and its names, or the pack and its parts."""
    job = read(Job, job_data(case))
    vehicle = as_read(vehicle_changes(case)[0])
    if rule.scope is Scope.RECORD:
        return (job,)
    if rule.scope is Scope.NAMES:
        return (job, shelf, None if case.data.get("no_vehicle") else vehicle)
    parts = job_parts(job, shelf, vehicle)
    assert parts is not None, "a case of a job rule names parts that are there"
    return (pack_of(case, parts), parts)


def pack_of(case: Case, parts: JobParts) -> WorkPack:
    pack = make_pack(parts, defaults=parts.shelf.defaults)
    for path, value in case.data.get("pack", {}).items():
        pack = _replaced(pack, path.split("."), value)
    return _with_own(case, _with_other_joints(case, pack))


def _with_other_joints(case: Case, pack: WorkPack) -> WorkPack:
    """The pack whose circuit lost some pieces or has ends joined that should not be."""
    said, circuit = case.data.get("circuit", {}), pack.circuit
    if not said:
        return pack
    assert circuit is not None, "a case about joints is a tap plan"
    gone = set(said.get("without", ()))
    known = {piece.id for piece in (*circuit.links, *circuit.wires, *circuit.elements)}
    assert gone <= known, gone - known
    ends = {end for joint in circuit.joints for end in joint.joins}
    assert {end for pair in said.get("join", ()) for end in pair} <= ends
    more = [
        Joint(f"odd joint {at}", "splice", "here", tuple(ends), "nothing", "with_part")
        for at, ends in enumerate(said.get("join", ()))
    ]
    return replace(
        pack,
        circuit=replace(
            circuit,
            links=tuple(link for link in circuit.links if link.id not in gone),
            wires=tuple(
                replace(wire, size=Conductor(size_awg=said["thin"][wire.id]))
                if wire.id in said.get("thin", {})
                else wire
                for wire in circuit.wires
                if wire.id not in gone
            ),
            elements=tuple(part for part in circuit.elements if part.id not in gone),
            joints=(*circuit.joints, *more),
        ),
    )


def _with_own(case: Case, pack: WorkPack) -> WorkPack:
    """The pack with the flags, steps and tests that a case writes out."""
    if "flags" in case.data:
        pack = replace(pack, flags=tuple(PackFlag(**each) for each in case.data["flags"]))
    if "steps" in case.data:
        steps = enumerate(case.data["steps"], 1)
        pack = replace(
            pack, steps=tuple(Step(number=at, **({**_STEP, **each})) for at, each in steps)
        )
    if "tests" in case.data:
        tests = enumerate(case.data["tests"], 1)
        made = tuple(BayTest(number=at, **({**_TEST, **each})) for at, each in tests)
        pack = replace(pack, tests=made)
    return pack


_STEP: dict[str, Any] = {"gate": "", "blocked": "", "caution": "", "lines": (), "makes": ()}
_TEST: dict[str, Any] = {
    "state": "", "quantity": "", "low": None, "high": None, "unit": "", "why": "", "reading": None,
}  # fmt: skip


def _replaced(value: Any, steps: list[str], new: Any) -> Any:
    """The same value with one place changed; a mapping becomes the dataclass that stood there."""
    if not steps:
        if isinstance(new, dict) and is_dataclass(value):
            known = {field.name for field in fields(value)}
            assert set(new) <= known, set(new) - known
            return replace(value, **new)  # type: ignore[type-var]
        return tuple(new) if isinstance(new, list) else new
    step, *rest = steps
    if isinstance(value, tuple):
        at = int(step)
        return (*value[:at], _replaced(value[at], rest, new), *value[at + 1 :])
    return replace(value, **{step: _replaced(getattr(value, step), rest, new)})


def _found(rule: Rule, fault: Fault, vehicle: str) -> Found:
    severity = rule.severity if fault.severity is None else fault.severity
    says = NOT_YET_KNOWN if fault.nobody_knows else rule.says(fault)
    return ".".join(map(str, fault.path)), fault.message, severity, vehicle, says
