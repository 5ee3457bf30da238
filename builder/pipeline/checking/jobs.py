"""Jobs: what each names, the work pack made of it, and whether that pack may stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Literal, NamedTuple

from builder.book import Name, RecordFile
from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.acceptance import apply_acceptances, place_acceptances
from builder.pipeline.checking.closing import closed_pack, doubted_pack, nothing_joined
from builder.pipeline.checking.gate import (
    Gate,
    closes,
    names_of_housings,
    only_grades,
    still_open,
    usable_interfaces,
)
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.privacy import SHARED_NAMES_PRIVATE, names_private, records_of
from builder.pipeline.checking.records import ReadRecord, read_record, with_faces
from builder.pipeline.checking.ruling import run_rules
from builder.pipeline.checking.shelf import ID_USED_TWICE, Shelves
from builder.planning.harness.at_plug import looms_of
from builder.planning.job.make_pack import WouldDo, make_pack, unasked
from builder.planning.trust import GradeOf
from builder.planning.words import PlanKind
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.registry import rules_for
from builder.rules.rule import Scope

_SHOWN_BY_THE_BOOK = frozenset({ID_USED_TWICE.id, SHARED_NAMES_PRIVATE.id})
"""Findings of a job that neither its own record nor what it names shows."""


_OF_THE_JOB_ITSELF = frozenset({"LOM106"})
"""Findings of a loom that a job judges for itself: wires that are changed over and cut are joined
again by their cavities."""


@dataclass(frozen=True, slots=True)
class DecidedJob:
    """A work pack, refused where a finding stands open on it, and the findings of the job."""

    pack: WorkPack
    findings: tuple[Finding, ...]


class CheckedJob(NamedTuple):
    """What a checked job file leaves behind.

    `pack` is its kind, "" when none could be made, None when nobody asked for it.
    """

    file: RecordFile
    job: Job | None
    pack: PlanKind | Literal[""] | None
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
    parts = JobParts(job, vehicle, converter, known, found, shelf)
    return parts if len(looms_of(parts)) == len(job.looms) else None


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
    return DecidedJob(_passed(pack, parts, findings, gate), tuple(findings))


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


def _passed(pack: WorkPack, parts: JobParts, findings: Sequence[Finding], gate: Gate) -> WorkPack:
    """What the gate leaves of a pack: a tap plan only while nothing stands open."""
    own, others = _of_the_job(parts.job, findings, gate), _of_its_parts(parts, gate)
    standing = (*own, *others)
    refusals = gate.refusals(standing)
    if standing and pack.kind == "tap_plan" and only_grades(standing):
        doubts = gate.doubts(standing, parts.vehicle, parts.shelf.defaults)
        return doubted_pack(pack, parts, doubts)
    if standing and (pack.kind == "tap_plan" or closes(standing)):
        return closed_pack(pack, refusals, figures=not others)
    if pack.kind == "tap_plan":
        return pack
    plan = nothing_joined(pack.plan)
    return replace(pack, plan=plan, refusals=(*pack.refusals, *refusals))


def _of_the_job(job: Job, findings: Sequence[Finding], gate: Gate) -> tuple[Finding, ...]:
    """What stands open on the job: what was found now, and what only the whole book shows."""
    of_book = [f for f in gate.on.get(("job", job.id), ()) if f.rule_id in _SHOWN_BY_THE_BOOK]
    return still_open([*findings, *of_book])


def _of_its_parts(parts: JobParts, gate: Gate) -> tuple[Finding, ...]:
    names = sorted(records_of(parts.job) - {("job", parts.job.id)})
    standing = gate.standing([*names, *names_of_housings(parts.vehicle), *_loom_housings(parts)])
    return tuple(each for each in standing if each.rule_id not in _OF_THE_JOB_ITSELF)


def _loom_housings(parts: JobParts) -> Iterator[Name]:
    for use in looms_of(parts).values():
        yield from (("housing", end.housing) for end in use.ends or ())


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
        return CheckedJob(file, read.record, "", findings, newest_date(read.record))


def unjudged_job(shelves: Shelves, file: RecordFile) -> CheckedJob:
    """Read one job file, and look only whether it names what a shared record may not."""
    read = read_record(file)
    if not isinstance(read.record, Job):
        return CheckedJob(file, None, "", read.findings, "")
    leaks = names_private(read, read.record, shelves.for_file(file), shelves.public)
    found = [*read.findings, *leaks]
    return CheckedJob(file, read.record, None, found, newest_date(read.record))


def _judged(
    shelves: Shelves,
    vehicle_files: Mapping[str, RecordFile],
    gate: Gate,
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
    decided = decide_job(read, parts, gate, would_do=unasked)
    kind = "no_plan" if leaks and decided.pack.kind == "tap_plan" else decided.pack.kind
    return CheckedJob(file, job, kind, [*decided.findings, *leaks], newest_date(job))


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
