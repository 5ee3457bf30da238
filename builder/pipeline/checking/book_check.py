"""`check`: every record against the schema, the rules and the other records."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import NamedTuple

from builder.book import Book, Name, RecordFile
from builder.findings import Fault, Finding
from builder.model.book import Shelf
from builder.model.dates import newest_date
from builder.model.summary import VehicleSummary, summarise
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.acceptance import (
    PlacedAcceptance,
    apply_acceptances,
    place_acceptances,
)
from builder.pipeline.checking.gate import Gate, gate_of, names_in
from builder.pipeline.checking.jobs import CheckedJob, check_job, unjudged_job
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.checking.privacy import names_private
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.ruling import located, run_rules
from builder.pipeline.checking.shelf import Shelves, read_shelves, twice
from builder.pipeline.checking.visits import (
    loose_visits,
    of_loose_visit,
    vehicle_files_of_visits,
    visit_names,
)
from builder.pipeline.checking.workers import map_files
from builder.rules.registry import rules_for
from builder.rules.rule import Rule, Scope

__all__ = ["CheckedBook", "CheckedVehicle", "Progress", "check_book", "check_vehicle", "run_rules"]

Progress = Callable[[int, int], None]


class CheckedVehicle(NamedTuple):
    """What a checked vehicle file leaves behind; small, because there may be many."""

    file: RecordFile
    summary: VehicleSummary | None
    findings: list[Finding]
    acceptances: list[PlacedAcceptance]
    newest: str  # date of the newest reading or edit, "" when there is none


@dataclass(frozen=True, slots=True)
class CheckedBook:
    """A checked book: its findings in reading order, and what pages and plans need of it."""

    book: Book
    shelf: Shelf
    findings: tuple[Finding, ...]
    summaries: tuple[VehicleSummary, ...]
    jobs: tuple[CheckedJob, ...]  # without the commented example
    records: int
    as_of: str  # the day asked for, else the newest date in the book: builds are reproducible
    names: Mapping[str, tuple[Name, ...]]  # of the record in each file, by how that is shown
    vehicle_files: Mapping[str, str]  # of each visit's file, both as they are shown

    @property
    def failing(self) -> int:
        """How many findings make `check` exit 1."""
        return sum(finding.fails_check for finding in self.findings)

    def gate(self, *, pages: bool = False) -> Gate:
        """What stands open against plans; with `pages` files are named as a page may."""
        return gate_of(self.findings, self.names, pages=pages)

    def findings_of(self, shown: str) -> list[Finding]:
        """The findings in one file, for a vehicle also those in the files of its visits."""
        return [finding for finding in self.findings if self.is_about(finding, shown)]

    def is_about(self, finding: Finding, shown: str) -> bool:
        """Whether a finding is in a file, or in that of a visit of the vehicle in it."""
        return shown in (finding.file, self.vehicle_files.get(finding.file))


def check_book(
    book: Book,
    progress: Progress = lambda done, total: None,
    jobs: Collection[Path] | None = None,
) -> CheckedBook:
    """Check every record of the book and return all findings.

    Args:
        book: What to check.
        progress: Told how many vehicles are done, and of how many.
        jobs: The files of the jobs whose packs are made and judged, None for every one. Who asks
            about one plan waits for no other; of other jobs only what they name is looked at.
    """
    files = book.files()
    shelves, findings = read_shelves(book, files)
    checked = _check_vehicles(files, shelves, progress)
    by_file = _with_book_findings(checked, shelves.book)
    for entry in checked:
        by_file[entry.file.shown] = apply_acceptances(by_file[entry.file.shown], entry.acceptances)
        findings += by_file[entry.file.shown]
    findings += _of_loose_visits(files)
    names = {**shelves.names, **visit_names(files), **_names(checked)}
    gate = gate_of([*book.findings, *findings], names)
    made = _check_jobs(files, shelves, checked, gate, jobs)
    findings += [finding for job in made for finding in job.findings]
    as_of = book.as_of or _newest_of(checked, made, shelves.book)
    return CheckedBook(
        book=book,
        shelf=replace(shelves.book, as_of=as_of or None),
        findings=tuple(sorted([*book.findings, *findings], key=Finding.sort_key)),
        summaries=tuple(_in_book(checked)),
        jobs=tuple(job for job in made if not job.file.is_template),
        records=len(files),
        as_of=as_of,
        names={**names, **{job.file.shown: _job_names(job) for job in made}},
        vehicle_files=vehicle_files_of_visits(files),
    )


def _of_loose_visits(files: Sequence[RecordFile]) -> list[Finding]:
    ids = {file.path.stem for file in files if file.kind == "vehicle"}
    reads = (read_record(file) for file in loose_visits(files))
    return [finding for read in reads for finding in of_loose_visit(read, ids)]


def _check_vehicles(
    files: Sequence[RecordFile], shelves: Shelves, progress: Progress
) -> list[CheckedVehicle]:
    vehicle_files = [file for file in files if file.kind == "vehicle"]
    found = map_files(partial(check_vehicle, shelves), vehicle_files, progress)
    # What a worker sends back names its file, but has left the bytes behind.
    return [entry._replace(file=file) for file, entry in zip(vehicle_files, found, strict=True)]


def _names(checked: Sequence[CheckedVehicle]) -> dict[str, tuple[Name, ...]]:
    return {
        entry.file.shown: names_in(entry.file, entry.summary.id if entry.summary else None)
        for entry in checked
    }


def _job_names(job: CheckedJob) -> tuple[Name, ...]:
    return names_in(job.file, job.job.id if job.job else None)


def _newest_of(checked: Sequence[CheckedVehicle], jobs: Sequence[CheckedJob], shelf: Shelf) -> str:
    """The newest date in the book: by it alone, nothing of the book lies in the future."""
    rung_out = (loom.ring_out.date for loom in shelf.looms.values() if loom.ring_out)
    dates = (*(entry.newest for entry in checked), *(job.newest for job in jobs), *rung_out)
    return max(dates, default="")


def _check_jobs(
    files: Sequence[RecordFile],
    shelves: Shelves,
    checked: Sequence[CheckedVehicle],
    gate: Gate,
    judged: Collection[Path] | None,
) -> list[CheckedJob]:
    """Check every job with the vehicle it names; only the example may name the example."""
    jobs = []
    for file in files:
        if file.kind == "job":
            named = {
                entry.summary.id: entry.file
                for entry in checked
                if entry.summary and entry.file.is_template <= file.is_template
            }
            asked = judged is None or file.path in judged
            jobs.append(
                check_job(shelves, named, gate, file) if asked else unjudged_job(shelves, file)
            )
    return list(_with_same_ids(jobs))


def _with_same_ids(jobs: Sequence[CheckedJob]) -> Iterator[CheckedJob]:
    """Yield the jobs; one whose id an earlier file has too with a finding and without a plan."""
    seen: dict[str, str] = {}
    for checked in jobs:
        if checked.job is not None and not checked.file.is_template:
            first = seen.setdefault(checked.job.id, checked.file.shown)
            if first != checked.file.shown:
                found = twice(read_record(checked.file), checked.job.id, first)
                kind = checked.pack and "no_plan"
                yield checked._replace(pack=kind, findings=[*checked.findings, found])
                continue
        yield checked


def check_vehicle(shelves: Shelves, file: RecordFile) -> CheckedVehicle:
    """Read one vehicle file and run the record and vehicle rules on it."""
    read = as_counted(read_record(file), shelves.for_file(file))
    if not isinstance(read.record, Vehicle):
        return CheckedVehicle(file, None, read.findings, [], "")
    try:
        return _judged(shelves, read, read.record)
    except Exception as error:
        findings = [*read.findings, own_fault(file.shown, error)]
        return CheckedVehicle(file, None, findings, [], newest_date(read.record))


def _judged(shelves: Shelves, read: ReadRecord, vehicle: Vehicle) -> CheckedVehicle:
    file = read.file
    findings = read.findings + run_rules(rules_for(Scope.RECORD, "vehicle"), read, vehicle)
    shelf = shelves.for_file(file)
    findings += run_rules(rules_for(Scope.VEHICLE), read, vehicle, shelf)
    findings += names_private(read, vehicle, shelf, shelves.public)
    return CheckedVehicle(
        file,
        summarise(vehicle, file.shown),
        findings,
        place_acceptances(vehicle, read),
        newest_date(vehicle),
    )


def _in_book(checked: Sequence[CheckedVehicle]) -> list[VehicleSummary]:
    return [entry.summary for entry in checked if entry.summary and not entry.file.is_template]


def _with_book_findings(
    checked: Sequence[CheckedVehicle], shelf: Shelf
) -> dict[str, list[Finding]]:
    """Findings by file, with those of the book-wide rules among them."""
    by_file = defaultdict(list, {entry.file.shown: list(entry.findings) for entry in checked})
    files = {entry.file.shown: entry.file for entry in checked}
    summaries = _in_book(checked)
    for rule in rules_for(Scope.BOOK):
        try:
            faults = _book_faults(rule, summaries, shelf)
        except Exception as error:  # no record alone is to blame: the first stands for all
            first = checked[0].file.shown
            by_file[first].append(own_fault(first, error))
            continue
        for shown, fault in faults:
            # Book-wide faults are few, so their texts are parsed again for the exact place.
            read = as_counted(read_record(files[shown]), shelf)
            by_file[shown].append(located(read, rule, fault))
    return by_file


def _book_faults(
    rule: Rule, summaries: Sequence[VehicleSummary], shelf: Shelf
) -> list[tuple[str, Fault]]:
    file_of = {summary.id: summary.file for summary in summaries}
    return [
        (file_of[found[0]], found[1])
        for found in rule.check(summaries, shelf)
        if isinstance(found, tuple)
    ]
