"""Jobs: what each names, the work pack made of it, and whether that pack may stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Literal, NamedTuple

from builder.book import RecordFile
from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.dates import newest_in_job
from builder.model.job import Job
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.acceptance import apply_acceptances, place_acceptances
from builder.pipeline.checking.begun import BegunPack, begun_pack, shown_pack, standing_of
from builder.pipeline.checking.begun_findings import begun_findings, not_known, not_reconstructed
from builder.pipeline.checking.gate import (
    Gate,
    usable_interfaces,
)
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.pack_gate import passed_pack
from builder.pipeline.checking.privacy import names_private
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.ruling import run_rules
from builder.pipeline.checking.shelf import Shelves
from builder.planning.job.make_pack import WouldDo, make_pack, unasked
from builder.planning.job.standing import NOT_BEGUN, JobStanding
from builder.planning.trust import GradeOf
from builder.planning.words import PlanKind
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.registry import rules_for
from builder.rules.rule import Scope


@dataclass(frozen=True, slots=True)
class DecidedJob:
    """A work pack, refused where a finding stands open on it, and the findings of the job.

    Of a job that is begun, `planned` is the pack that it was begun with, and `pack` what is shown
    of it now; of any other they are one.
    """

    pack: WorkPack
    findings: tuple[Finding, ...]
    parts: JobParts
    planned: WorkPack
    standing: JobStanding = NOT_BEGUN


class CheckedJob(NamedTuple):
    """What a checked job file leaves behind.

    `pack` is its kind, "" when none could be made, None when nobody asked for it.
    """

    file: RecordFile
    job: Job | None
    pack: PlanKind | Literal[""] | None
    findings: list[Finding]
    newest: str  # newest day that stands in it, "" when there is none


def decide_job(
    read: ReadRecord,
    parts: JobParts,
    gate: Gate,
    grade: GradeOf | None = None,
    would_do: WouldDo | None = None,
    ordered: bool = True,
) -> DecidedJob:
    """Return the pack of a job whose names all lead somewhere, and the findings about it.

    The gate decides what stands of it: its own findings count, and those of every record it
    names. `would_do` says whether the job comes to a tap plan with another converter; None plans
    it again with that one. `ordered`: see `make_pack`.
    """
    usable = {each.id: each for each in usable_interfaces(parts.shelf, gate)}
    parts = replace(parts, shelf=replace(parts.shelf, interfaces=usable))
    again = would_do or partial(_comes_to_tap_plan, read, parts, gate, grade)
    pack = make_pack(
        parts,
        defaults=parts.shelf.defaults,
        grade=grade,
        barred=gate.bars(parts.vehicle.id),
        would_do=again,
        ordered=ordered,
    )
    found = _found(read, pack, parts)
    findings = apply_acceptances(found, place_acceptances(parts.job, read))
    passed = passed_pack(pack, parts, findings, gate)
    return DecidedJob(passed, tuple(findings), parts, passed)


def decided_job(
    read: ReadRecord,
    job: Job,
    shelf: Shelf,
    car: ReadRecord | None,
    gate: Gate,
    would_do: WouldDo | None = None,
) -> DecidedJob | None:
    """Return the pack of a job of the book; None when a name of it leads nowhere.

    `car` is the file of its vehicle as it is today. A job that is begun keeps the pack that it was
    begun with; any other is planned from the book.
    """
    begun = begun_pack(read, job, shelf, car)
    if begun is not None:
        return _decide_begun(begun, read, job, shelf, car, gate)
    parts = job_parts(job, shelf, _vehicle_in(car))
    return None if parts is None else decide_job(read, parts, gate, would_do=would_do)


def _decide_begun(
    begun: BegunPack,
    read: ReadRecord,
    job: Job,
    shelf: Shelf,
    car: ReadRecord | None,
    gate: Gate,
) -> DecidedJob:
    if begun.source == "named":
        found = _without_pack(read, job, shelf, _vehicle_in(car))
    else:
        found = _found(read, begun.filled, begun.parts)
    findings = apply_acceptances(found, place_acceptances(job, read))
    standing = standing_of(begun, job, gate, findings, _vehicle_in(car), shelf)
    findings += begun_findings(read, job, standing.recalls)
    if standing.as_built is None:
        findings.append(not_known(read, standing.begun))
    elif begun.source == "today":
        findings.append(not_reconstructed(read, standing.begun))
    shown = shown_pack(begun, standing, job)
    return DecidedJob(shown, tuple(findings), begun.parts, begun.pack, standing)


def _vehicle_in(car: ReadRecord | None) -> Vehicle | None:
    return car.record if car is not None and isinstance(car.record, Vehicle) else None


def _found(read: ReadRecord, pack: WorkPack, parts: JobParts) -> list[Finding]:
    """What was found of a job while it was read, in itself, in what it names and in its pack."""
    return [
        *read.findings,
        *run_rules(rules_for(Scope.RECORD, "job"), read, parts.job),
        *run_rules(rules_for(Scope.NAMES), read, parts.job, parts.shelf, parts.vehicle),
        *run_rules(rules_for(Scope.JOB), read, pack, parts),
    ]


def _comes_to_tap_plan(
    read: ReadRecord, parts: JobParts, gate: Gate, grade: GradeOf | None, converter: Converter
) -> bool:
    job = replace(parts.job, converter=converter.id)
    other = replace(parts, job=job, converter=converter)
    try:
        return decide_job(read, other, gate, grade, unasked, ordered=False).pack.kind == "tap_plan"
    except Exception:
        return False  # nobody is sent to a part that cannot be planned with


def check_job(
    shelves: Shelves,
    vehicle_files: Mapping[str, RecordFile],
    gate: Gate,
    file: RecordFile,
) -> CheckedJob:
    """Read one job file, make its pack where its names allow it, and run the job rules.

    `vehicle_files` gives the file of each vehicle by id; its text is parsed again: jobs are few.
    """
    read = read_record(file)
    if not isinstance(read.record, Job):
        return CheckedJob(file, None, "", read.findings, "")
    try:
        return _judged(shelves, vehicle_files, gate, read, read.record)
    except Exception as error:
        findings = [*read.findings, own_fault(file.shown, error)]
        return CheckedJob(file, read.record, "", findings, newest_in_job(read.record))


def unjudged_job(shelves: Shelves, file: RecordFile) -> CheckedJob:
    """Read one job file, and look only whether it names what a shared record may not."""
    read = read_record(file)
    if not isinstance(read.record, Job):
        return CheckedJob(file, None, "", read.findings, "")
    leaks = names_private(read, read.record, shelves.for_file(file), shelves.public)
    found = [*read.findings, *leaks]
    return CheckedJob(file, read.record, None, found, newest_in_job(read.record))


def _judged(
    shelves: Shelves,
    vehicle_files: Mapping[str, RecordFile],
    gate: Gate,
    read: ReadRecord,
    job: Job,
) -> CheckedJob:
    file = read.file
    shelf = shelves.for_file(file)
    car = car_of(vehicle_files.get(job.vehicle), shelf)
    leaks = names_private(read, job, shelf, shelves.public)
    decided = decided_job(read, job, shelf, car, gate, unasked)
    if decided is None:
        found = [*_without_pack(read, job, shelf, _vehicle_in(car)), *leaks]
        return CheckedJob(file, job, "", found, newest_in_job(job))
    kind = "no_plan" if leaks and decided.pack.kind == "tap_plan" else decided.pack.kind
    return CheckedJob(file, job, kind, [*decided.findings, *leaks], newest_in_job(job))


def car_of(file: RecordFile | None, shelf: Shelf) -> ReadRecord | None:
    """Return the record of a job's vehicle; None where the book has no such file."""
    return None if file is None else as_counted(read_record(file), shelf)


def _without_pack(
    read: ReadRecord, job: Job, shelf: Shelf, vehicle: Vehicle | None
) -> list[Finding]:
    """Findings of a job that names something missing. Its acceptances cannot be judged yet."""
    return [
        *read.findings,
        *run_rules(rules_for(Scope.RECORD, "job"), read, job),
        *run_rules(rules_for(Scope.NAMES), read, job, shelf, vehicle),
    ]
