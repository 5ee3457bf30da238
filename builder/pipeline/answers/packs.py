"""The work packs of a book's jobs, made again for the pages and for the command."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.book import Book, RecordFile
from builder.findings import Finding
from builder.model.job import Job
from builder.pipeline.answers.answering import NoSuchRecordError, RefusedRecordError
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.jobs import CheckedJob, car_of, decided_job
from builder.pipeline.checking.plan_sum import plan_sum
from builder.pipeline.checking.privacy import interfaces_for, records_of
from builder.pipeline.checking.records import read_record
from builder.planning.job.make_pack import WouldDo, unasked
from builder.planning.job.pack_json import pack_as_json
from builder.planning.job.standing import NOT_BEGUN, JobStanding
from builder.planning.plan_json import as_json
from builder.planning.work_pack import JobParts, WorkPack
from builder.reporting import finding_data
from builder.visible_names import visible_name


@dataclass(frozen=True, slots=True)
class MadePack:
    """A work pack, what it was made from, and the findings of its job."""

    parts: JobParts
    pack: WorkPack
    findings: tuple[Finding, ...]
    data: dict[str, Any]  # the job's record as typed
    record_sha256: str = ""  # of the job's file
    private: bool = False  # made with a record that only this shop may see
    begun: WorkPack | None = None  # what a job was begun with; None for one that is not begun
    standing: JobStanding = NOT_BEGUN

    @property
    def planned(self) -> WorkPack:
        """The pack as planned: whatever came of it since, a sheet of the bay is one of it."""
        return self.begun or self.pack

    @property
    def digest(self) -> str:
        """A short sum of what the pack says, for the foot of its sheets."""
        return plan_sum(pack_as_json(self.planned))

    def as_data(self) -> dict[str, Any]:
        """The pack as its JSON contract says, with the findings on it."""
        findings = [finding_data(finding) for finding in self.findings]
        standing = as_json(self.standing)
        return {**pack_as_json(self.pack), "findings": findings, "standing": standing}

    def reasons_as_data(self) -> dict[str, Any]:
        """Why it is what it is: refusals, every decision with its reasons, what else would do."""
        data = self.as_data()
        return {key: data[key] for key in ("job", "kind", "refusals", "because", "alternatives")}


def made_packs(checked: CheckedBook) -> Iterator[MadePack]:
    """Yield the pack of every job of the book whose names all lead somewhere."""
    return packs_of(checked, checked.jobs, cars_by_id(checked.book), checked.gate())


def packs_of(
    checked: CheckedBook, jobs: Iterable[CheckedJob], vehicles: Mapping[str, RecordFile], gate: Gate
) -> Iterator[MadePack]:
    """Yield the same of these jobs; `vehicles` are the files of their cars by id."""
    for job in jobs:
        if job.pack != "":
            make = _tried if job.pack is None else made_pack
            made = make(checked, job.file, vehicles, gate, unasked)
            if made is not None:
                yield made


def _tried(checked: CheckedBook, *given: Any) -> MadePack | None:
    """The pack; None too where an error of ours is in the way, which the job's check finds."""
    try:
        return made_pack(checked, *given)
    except Exception:
        return None


def made_pack(
    checked: CheckedBook,
    file: RecordFile,
    vehicles: Mapping[str, RecordFile],
    gate: Gate,
    would_do: WouldDo | None = None,
) -> MadePack | None:
    """Return the pack of one job of the book, which was made before when that was judged.

    `vehicles` are the files of the cars by id. Without `would_do` other converters are tried, which
    takes as long as planning with each of them. None where a name leads nowhere.
    """
    read = read_record(file)
    job = read.record
    if not isinstance(job, Job):
        return None
    car = car_of(vehicles.get(job.vehicle), checked.shelf)
    decided = decided_job(read, job, checked.shelf, car, gate, would_do)
    if decided is None:
        return None
    parts = decided.parts
    private = checked.book.any_private(records_of(job) | interfaces_for(parts.vehicle, parts.shelf))
    return MadePack(
        parts, decided.pack, decided.findings, read.data or {}, read.digest, private,
        decided.planned if decided.standing.begun else None, decided.standing,
    )  # fmt: skip


def cars_by_id(book: Book) -> dict[str, RecordFile]:
    """Return the vehicle files by id; the folders are walked once for all jobs."""
    found = [file for file in book.files() if file.kind == "vehicle" and not file.is_template]
    return {file.path.stem: file for file in reversed(found)}


def packed(book: Book, name: str) -> MadePack:
    """Return the work pack of the job that `name` means: its id, or a part of only one id.

    Raises:
        NoSuchRecordError: none or several fit, or the job names something that is not there.
    """
    return packed_of(check_book(book, jobs=(), about=_cars_of(book, name)), name)


def _cars_of(book: Book, name: str) -> list[Path]:
    """The files of the vehicles of the jobs that a name could mean."""
    return cars_of([f for f in book.files() if f.kind == "job" and name in f.stem], book)


def cars_of(jobs: Iterable[RecordFile], book: Book) -> list[Path]:
    """Return the files of the vehicles that jobs of a book name."""
    named = {job.vehicle for job in (read_record(f).record for f in jobs) if isinstance(job, Job)}
    return [file.path for file in book.files() if file.kind == "vehicle" and file.stem in named]


def packed_of(checked: CheckedBook, name: str) -> MadePack:
    """The same of a book that is checked; it raises what `packed` raises."""
    book = checked.book
    known = {job.file.path.stem: job for job in checked.jobs}
    fitting = [stem for stem in known if stem == name] or [s for s in known if name in s]
    if len(fitting) != 1:
        names = (map(visible_name, stems) for stems in (fitting, known))
        raise NoSuchRecordError(_which(name, *map(list, names)))
    file = known[fitting[0]].file
    made = _tried(checked, file, cars_by_id(book), checked.gate())
    if made is None:
        judged = check_book(book, jobs=(file.path,))
        raise _why_not(judged, next(job for job in judged.jobs if job.file == file))
    return made


def _why_not(checked: CheckedBook, job: CheckedJob) -> NoSuchRecordError:
    """Where to look: a record it names that cannot be read, or else the job itself."""
    named = records_of(job.job) if job.job else set()
    files = [file for file in checked.book.files() if (file.kind, file.path.stem) in named]
    broken = [read for read in map(read_record, files) if read.record is None]
    found = [each for read in broken for each in read.findings] or job.findings
    if found:
        return RefusedRecordError(found)
    return NoSuchRecordError(f"{job.file.shown} cannot be planned: loombook check says why")


def _which(name: str, fitting: list[str], known: list[str]) -> str:
    if fitting:
        return f'"{name}" could be any of: {", ".join(sorted(fitting))}'
    there_are = ", ".join(sorted(known)) or "none"
    return (
        f'no job is called "{name}"; there are: {there_are}. '
        "To plan a vehicle, name a converter with --converter"
    )
