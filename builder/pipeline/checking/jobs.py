"""Jobs: what each names, the work pack made of it, and whether that pack may stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from builder.book import RecordFile
from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.acceptance import apply_acceptances, place_acceptances
from builder.pipeline.checking.deciding import barred_paths
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.privacy import names_private
from builder.pipeline.checking.records import ReadRecord, read_record, with_faces
from builder.pipeline.checking.ruling import run_rules
from builder.pipeline.checking.shelf import Shelves
from builder.planning.job.make_pack import make_pack
from builder.planning.job.refused_pack import NOTHING_JOINED
from builder.planning.plan import Reason
from builder.planning.trust import GradeOf
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.registry import BY_ID, rules_for
from builder.rules.rule import Scope

FindingsOf = Mapping[str, Sequence[Finding]]
"""Findings of the vehicle files, by the name a file is shown under."""


@dataclass(frozen=True, slots=True)
class DecidedJob:
    """A work pack, refused where a finding stands open on it, and the findings of the job."""

    pack: WorkPack
    findings: tuple[Finding, ...]


class CheckedJob(NamedTuple):
    """What a checked job file leaves behind. `pack` is its kind, "" when none could be made."""

    file: RecordFile
    job: Job | None
    pack: str
    findings: list[Finding]
    newest: str  # date of the newest result or edit, "" when there is none


def job_parts(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> JobParts | None:
    """Return the job with every record it names, or None when one of them is not there.

    A speaker driven by an amplifier that the job does not have leads nowhere just the same.
    """
    converter = shelf.converters.get(job.converter)
    amplifiers = {each.name: shelf.amplifiers.get(each.part) for each in job.amplifiers}
    cables = [shelf.cables.get(name) for name in job.cables]
    known = {name: part for name, part in amplifiers.items() if part is not None}
    driven = all(speaker.amplifier in known for speaker in job.speakers)
    whole = len(known) == len(job.amplifiers) and None not in cables
    if vehicle is None or converter is None or not whole or not driven:
        return None
    found = tuple(cable for cable in cables if cable is not None)
    return JobParts(job, vehicle, converter, known, found, shelf)


def decide_job(
    read: ReadRecord,
    parts: JobParts,
    vehicle_findings: Sequence[Finding],
    grade: GradeOf | None = None,
) -> DecidedJob:
    """Return the pack of a job whose names all lead somewhere, and the findings about it.

    A stop, or a fix that the job does not accept with a reason, refuses a tap plan.
    """
    job, shelf = parts.job, parts.shelf
    pack = make_pack(
        parts, defaults=shelf.defaults, grade=grade, barred=barred_paths(vehicle_findings)
    )
    found = [
        *read.findings,
        *run_rules(rules_for(Scope.RECORD, "job"), read, job),
        *run_rules(rules_for(Scope.NAMES), read, job, shelf, parts.vehicle),
        *run_rules(rules_for(Scope.JOB), read, pack, parts),
    ]
    findings = apply_acceptances(found, place_acceptances(job, read))
    return DecidedJob(_refuse(pack, findings), tuple(findings))


def _refuse(pack: WorkPack, findings: Sequence[Finding]) -> WorkPack:
    """Take back a tap plan on which a stop, or a fix nobody answers for, stands open.

    A wrong id or an acceptance without use is to be mended, and says nothing of the work.
    """
    standing = [f for f in findings if f.rule_id in BY_ID and f.fails_check]
    if pack.kind != "tap_plan" or not standing:
        return pack
    refusals = tuple(Reason("refused", f"{f.rule_id}: {f.message}", f.docs) for f in standing)
    return replace(_closed(pack), kind="no_plan", refusals=(*pack.refusals, *refusals))


def _closed(pack: WorkPack) -> WorkPack:
    """The pack without anything that somebody could start to work from; its figures stay."""
    return replace(
        pack,
        plan=replace(
            pack.plan, kind="no_plan", feeds=(), insulate=(), tests=(), turn_on=NOTHING_JOINED
        ),
        gains=(),
        hold_up=None,
        conductors=(),
        cut_list=(),
        labels=(),
        insulate=(),
        tests=(),
        steps=(),
        revert=(),
        customer=(),
        parts=(),
    )


def check_job(
    shelves: Shelves,
    vehicle_files: Mapping[str, RecordFile],
    findings_of: FindingsOf,
    file: RecordFile,
) -> CheckedJob:
    """Read one job file, make its pack where its names allow it, and run the job rules.

    `vehicle_files` gives the file of each vehicle by id; its text is parsed again: jobs are few.
    """
    read = read_record(file)
    if not isinstance(read.record, Job):
        return CheckedJob(file, None, "", read.findings, "")
    try:
        return _judged(shelves, vehicle_files, findings_of, read, read.record)
    except Exception as error:
        findings = [*read.findings, own_fault(file.shown, error)]
        return CheckedJob(file, read.record, "", findings, newest_date(read.record))


def _judged(
    shelves: Shelves,
    vehicle_files: Mapping[str, RecordFile],
    findings_of: FindingsOf,
    read: ReadRecord,
    job: Job,
) -> CheckedJob:
    file = read.file
    shelf = shelves.for_file(file)
    vehicle_file = vehicle_files.get(job.vehicle)
    vehicle = _vehicle(vehicle_file, shelf)
    parts = job_parts(job, shelf, vehicle)
    leaks = names_private(read, job, shelf, shelves.public)
    if parts is None or vehicle_file is None:
        found = [*_without_pack(read, job, shelf, vehicle), *leaks]
        return CheckedJob(file, job, "", found, newest_date(job))
    decided = decide_job(read, parts, findings_of.get(vehicle_file.shown, ()))
    findings = [*decided.findings, *leaks]
    return CheckedJob(file, job, decided.pack.kind, findings, newest_date(job))


def _vehicle(file: RecordFile | None, shelf: Shelf) -> Vehicle | None:
    record = with_faces(read_record(file), shelf.housings).record if file is not None else None
    return record if isinstance(record, Vehicle) else None


def _without_pack(
    read: ReadRecord, job: Job, shelf: Shelf, vehicle: Vehicle | None
) -> list[Finding]:
    """Findings of a job that names something missing. Its acceptances cannot be judged yet."""
    return [
        *read.findings,
        *run_rules(rules_for(Scope.RECORD, "job"), read, job),
        *run_rules(rules_for(Scope.NAMES), read, job, shelf, vehicle),
    ]


def newest_date(job: Job) -> str:
    """The newest result or follow-up of a job, or its edit when there is none."""
    dates = [*(result.date for result in job.results), *(heard.date for heard in job.follow_up)]
    return max(dates, default=job.edited or "")
