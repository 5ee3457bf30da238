"""`check`: every record against the schema, the rules and the other records."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from builder.book import Book, Name, RecordFile
from builder.findings import Finding
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.pipeline.checking.acceptance import (
    apply_acceptances,
)
from builder.pipeline.checking.book_rules import vehicles_in_book, with_book_findings
from builder.pipeline.checking.checked_vehicle import CheckedVehicle
from builder.pipeline.checking.gate import Gate, gate_of, names_in
from builder.pipeline.checking.jobs import CheckedJob, unjudged_job
from builder.pipeline.checking.kept import Kept
from builder.pipeline.checking.kept_jobs import check_jobs
from builder.pipeline.checking.records import read_record
from builder.pipeline.checking.shelf import Shelves, read_shelves, twice
from builder.pipeline.checking.visits import (
    loose_visits,
    of_loose_visit,
    vehicle_files_of_visits,
    visit_names,
)
from builder.pipeline.checking.whole_book import CheckedVehicles, all_vehicles, vehicles_about
from builder.pipeline.checking.workers import Progress


@dataclass(frozen=True)
class CheckedBook:
    """A checked book: its findings in reading order, and what pages and plans need of it."""

    book: Book
    shelf: Shelf
    findings: tuple[Finding, ...]
    vehicles: tuple[CheckedVehicle, ...]  # that were looked at, the commented example among them
    jobs: tuple[CheckedJob, ...]  # without the commented example
    records: int
    as_of: str  # the day asked for, else the newest date in the book: builds are reproducible
    names: Mapping[str, tuple[Name, ...]]  # of the record in each file, by how that is shown
    anew: int  # vehicles and jobs that were looked at anew and not taken from the store
    vehicle_files: Mapping[str, str]  # of each visit's file, both as they are shown
    kept: Kept = field(compare=False, repr=False)  # what was known of it before

    @cached_property
    def summaries(self) -> tuple[VehicleSummary, ...]:
        """The vehicles as book-wide rules and the finder need them, made when asked for."""
        return tuple(vehicles_in_book(self.vehicles))

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
    about: Collection[Path] | None = None,
) -> CheckedBook:
    """Check every record of the book and return all findings.

    Args:
        book: What to check.
        progress: Told how many vehicles are done, and of how many.
        jobs: The files of the jobs whose packs are made and judged, None for every one. Who asks
            about one plan waits for no other; of other jobs only what they name is looked at.
        about: The files of the vehicles that the answer is about, None for every one. Where the
            whole book was checked as it is, only these are looked at again, and those that
            something found is about them too; else every one is.
    """
    files = book.files()
    shelves, findings = read_shelves(book, files)
    kept = Kept(book, shelves)
    vehicles = _check_vehicles(book, files, about, shelves, kept, progress)
    checked = vehicles.checked
    by_file = with_book_findings(checked, vehicles.found, shelves.book, kept)
    for entry in checked:
        by_file[entry.file.shown] = apply_acceptances(by_file[entry.file.shown], entry.acceptances)
        findings += by_file[entry.file.shown]
    loose = loose_visits(files)
    findings += [*_of_loose_visits(loose, files), *_visits_twice(files)]
    looked_at = [*(entry.file for entry in checked), *loose]
    names = {**shelves.names, **visit_names(looked_at), **_names(checked)}
    gate = gate_of([*book.findings, *findings], names)
    made = _check_jobs(files, shelves, checked, gate, kept, jobs)
    kept.write()
    findings += [finding for job in made for finding in job.findings]
    as_of = book.as_of or _newest_of(vehicles.newest, made, shelves.book)
    return CheckedBook(
        book=book,
        shelf=replace(shelves.book, as_of=as_of or None),
        findings=tuple(sorted([*book.findings, *findings], key=Finding.sort_key)),
        vehicles=tuple(checked),
        jobs=tuple(job for job in made if not job.file.is_template),
        records=len(files),
        as_of=as_of,
        names={**names, **{job.file.shown: _job_names(job) for job in made}},
        anew=kept.looked_at_anew,
        vehicle_files=vehicle_files_of_visits(looked_at),
        kept=kept,
    )


def _check_vehicles(
    book: Book,
    files: Sequence[RecordFile],
    about: Collection[Path] | None,
    shelves: Shelves,
    kept: Kept,
    progress: Progress,
) -> CheckedVehicles:
    of_vehicles = [file for file in files if file.kind == "vehicle"]
    some = about is not None and vehicles_about(book, of_vehicles, about, shelves, kept)
    return some or all_vehicles(book, of_vehicles, shelves, kept, progress)


def _of_loose_visits(loose: Sequence[RecordFile], files: Sequence[RecordFile]) -> list[Finding]:
    ids = {file.stem for file in files if file.kind == "vehicle"} if loose else set()
    reads = (read_record(file) for file in loose)
    return [finding for read in reads for finding in of_loose_visit(read, ids)]


def _visits_twice(files: Sequence[RecordFile]) -> Iterator[Finding]:
    """Yield each visit whose id an earlier file has too, be it of another vehicle."""
    seen: dict[str, RecordFile] = {}
    for file in files:
        if file.kind == "visit" and not file.is_template:
            first = seen.setdefault(file.stem, file)
            if first is not file:
                yield twice(read_record(file), file.stem, first.shown)


def _names(checked: Sequence[CheckedVehicle]) -> dict[str, tuple[Name, ...]]:
    return {entry.file.shown: names_in(entry.file, entry.id) for entry in checked}


def _job_names(job: CheckedJob) -> tuple[Name, ...]:
    return names_in(job.file, job.job.id if job.job else None)


def _newest_of(of_vehicles: str, jobs: Sequence[CheckedJob], shelf: Shelf) -> str:
    """The newest date in the book: by it alone, nothing of the book lies in the future."""
    rung_out = (loom.ring_out.date for loom in shelf.looms.values() if loom.ring_out)
    dates = (of_vehicles, *(job.newest for job in jobs), *rung_out)
    return max(dates)


def _check_jobs(
    files: Sequence[RecordFile],
    shelves: Shelves,
    checked: Sequence[CheckedVehicle],
    gate: Gate,
    kept: Kept,
    judged: Collection[Path] | None,
) -> list[CheckedJob]:
    """Check every job with the vehicle it names; only the example may name the example."""
    jobs = [file for file in files if file.kind == "job"]
    asked = [file for file in jobs if judged is None or file.path in judged]
    made = {file.path: unjudged_job(shelves, file) for file in jobs if file not in asked}
    for example in (False, True):
        named = {one.id: one.file for one in checked if one.id and one.file.is_template <= example}
        some = [file for file in asked if file.is_template is example]
        made |= {one.file.path: one for one in check_jobs(some, shelves, named, gate, kept)}
    return list(_with_same_ids([made[file.path] for file in jobs]))


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
