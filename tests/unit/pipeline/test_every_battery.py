"""The battery that a visit found changes no verdict: 11.9 V, 12.6 V, a supporter, an alternator."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from at_battery import BATTERIES_V, at_battery
from shipped_book import PINOUTS
from shipped_cars import CARS, car, read_car

from builder.book import RecordFile, open_book
from builder.findings import Finding, Severity
from builder.model.job import Job, Result
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.deciding import decide_plan
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.jobs import decide_job
from builder.pipeline.checking.records import ReadRecord, read_record
from builder.pipeline.checking.ruling import run_rules
from builder.proof.grading.grade import grade_pin
from builder.rules.registry import rules_for
from builder.rules.rule import Scope

JOBS = sorted(path.stem for path in (PINOUTS / "jobs").glob("*.yaml") if path.stem != "TEMPLATE")


@cache
def shipped() -> CheckedBook:
    return check_book(open_book(PINOUTS))


def file_of(stem: str) -> RecordFile:
    return next(file for file in shipped().book.files() if file.path.stem == stem)


def found_on(read: ReadRecord, vehicle: Vehicle) -> list[Finding]:
    shelf = shipped().shelf
    return [
        *run_rules(rules_for(Scope.RECORD), read, vehicle),
        *run_rules(rules_for(Scope.VEHICLE), read, vehicle, shelf),
    ]


def verdicts(stem: str, battery_v: float) -> dict[str, object]:
    """Everything that is decided about a vehicle, were every reading taken at this battery."""
    read = read_car(stem)
    assert isinstance(read.record, Vehicle)
    vehicle, shelf = at_battery(read.record, battery_v), shipped().shelf
    findings = found_on(read, vehicle)
    gate = Gate({("vehicle", vehicle.id): findings})
    failing = {(f.rule_id, f.path) for f in findings if f.severity in (Severity.STOP, Severity.FIX)}
    said: dict[str, object] = {"findings": sorted(failing, key=str)}
    for plug in vehicle.plugs:
        for pin in plug.pins:
            said[f"{plug.id}.{pin.cavity}"] = grade_pin(vehicle, pin, shelf.defaults).label
    for name, converter in shelf.converters.items():
        plan = decide_plan(read, vehicle, converter, shelf, gate).plan
        said[name] = (plan.kind, plan.grade, plan.turn_on.rung, [f.cavity for f in plan.feeds])
    return said


@pytest.mark.parametrize("stem", CARS)
def test_every_plan_and_grade_is_the_same_at_every_battery(stem: str) -> None:
    first, *others = (verdicts(stem, battery_v) for battery_v in BATTERIES_V)
    assert len(first) > len(shipped().shelf.converters)
    for battery_v, other in zip(BATTERIES_V[1:], others, strict=True):
        moved = {key for key in first if first[key] != other[key]}
        assert not moved, (battery_v, [(key, first[key], other[key]) for key in moved])


LOADED_FROM_BATTERY_V = -0.5
"""How far a supply under load may read below its battery; one that is read open has less."""


def filled(job: Job, tests: tuple[object, ...], battery_v: float, lag_v: float) -> Job:
    """The job with each line that moves with the battery read `lag_v` under it."""
    results = tuple(
        Result(
            test=test.id,  # type: ignore[attr-defined]
            value=battery_v - lag_v,
            by="some-shop",
            date="2025-06-01",
            battery_v=battery_v,
        )
        for test in tests
        if test.low_from_battery_v == LOADED_FROM_BATTERY_V  # type: ignore[attr-defined]
    )
    return replace(job, results=results)


@pytest.mark.parametrize("stem", JOBS)
def test_results_of_a_job_are_judged_beside_their_battery(stem: str) -> None:
    read = read_record(file_of(stem))
    assert isinstance(read.record, Job)
    parts = job_parts(read.record, shipped().shelf, car(read.record.vehicle))
    assert parts is not None
    told = shipped().gate()
    made = decide_job(read, parts, told).pack
    for battery_v in BATTERIES_V:
        for lag_v, stands in ((0.1, True), (0.5, True), (0.51, False), (-0.31, False)):
            job = filled(read.record, made.tests, battery_v, lag_v)
            again = decide_job(read, replace(parts, job=job), told)
            outside = [f for f in again.findings if f.rule_id == "SAF106"]
            assert bool(outside) is (not stands and bool(job.results)), (battery_v, lag_v, outside)


def test_some_line_of_a_shipped_job_moves_with_its_battery() -> None:
    """So that the test above cannot pass by asking nothing."""
    moving = 0
    for stem in JOBS:
        read = read_record(file_of(stem))
        assert isinstance(read.record, Job)
        parts = job_parts(read.record, shipped().shelf, car(read.record.vehicle))
        assert parts is not None
        moving += sum(
            test.band.moves for test in decide_job(read, parts, shipped().gate()).pack.tests
        )
    assert moving > 5
