"""The case files of the rules: small changes to a base record, and what a rule finds in it.

cases/PIN101.yaml holds `passing` and `failing`, each a list of cases:

    name       what the case shows
    set        data path -> new value in the base vehicle; an index one past the end appends
    delete     data paths taken out
    vehicles   for rules over a book: a list of {set, delete}, one for each vehicle
    housings   data path -> new value in the base housings
    defaults   house defaults that differ
    as_of      the day the book is checked for
    expect     failing cases only: every fault, as {path, message, severity, vehicle}
"""

from __future__ import annotations

import copy
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from builder.findings import Fault, Severity
from builder.loading import load_file
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.summary import summarise
from builder.model.vehicle import Vehicle
from builder.parsing import parse_housing, parse_vehicle
from builder.rules.rule import Rule, Scope

HERE = Path(__file__).parent
CASES = HERE / "cases"
Found = tuple[str, str, Severity, str]


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
    data = copy.deepcopy(base)
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


def _walk(data: Any, path: str) -> tuple[Any, str]:
    *steps, last = path.split(".")
    for step in steps:
        data = data[int(step)] if isinstance(data, list) else data[step]
    return data, last


def vehicle_data(change: dict[str, Any]) -> dict[str, Any]:
    base = read_yaml(HERE / "base_vehicle.yaml")
    data: dict[str, Any] = patched(base, change.get("set", {}), change.get("delete", []))
    return data


def vehicle_changes(case: Case) -> list[dict[str, Any]]:
    return case.data.get("vehicles") or [case.data]


def shelf_of(case: Case, vehicles: list[Vehicle]) -> Shelf:
    base = read_yaml(HERE / "base_housings.yaml")
    housings = patched(base, case.data.get("housings", {}), [])
    return Shelf(
        housings={key: parse_housing(data) for key, data in housings.items()},
        vehicle_ids=frozenset({vehicle.id for vehicle in vehicles} | {"sister-car"}),
        defaults=replace(HouseDefaults(), **case.data.get("defaults", {})),
        as_of=case.data.get("as_of"),
    )


def run_case(rule: Rule, case: Case) -> list[Found]:
    """Every fault of the rule in the case as (path, message, severity, vehicle or "")."""
    vehicles = [parse_vehicle(vehicle_data(change)) for change in vehicle_changes(case)]
    shelf = shelf_of(case, vehicles)
    if rule.scope is Scope.BOOK:
        summaries = [summarise(v, f"{i}.yaml") for i, v in enumerate(vehicles)]
        return [_found(rule, fault, owner) for owner, fault in rule.run(summaries, shelf)]
    if rule.kinds == ("housing",):
        return [
            _found(rule, f, "") for housing in shelf.housings.values() for f in rule.run(housing)
        ]
    subjects = (vehicles[0],) if rule.scope is Scope.RECORD else (vehicles[0], shelf)
    return [_found(rule, fault, "") for fault in rule.run(*subjects)]


def _found(rule: Rule, fault: Fault, vehicle: str) -> Found:
    severity = rule.severity if fault.severity is None else fault.severity
    return ".".join(map(str, fault.path)), fault.message, severity, vehicle
