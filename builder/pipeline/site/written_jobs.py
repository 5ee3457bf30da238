"""One job of a site: its pages and its data, written by a worker; and the lists of all jobs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from builder.book import RecordFile
from builder.findings import Finding
from builder.pipeline.answers.packs import MadePack, made_pack
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.own_fault import own_fault
from builder.pipeline.site.gone_records import OfBook, without_gone
from builder.pipeline.site.job_pages import job_data, pages_of_job
from builder.pipeline.site.open_data import DataRecord
from builder.pipeline.site.site_writer import ListedPages, SiteWriter
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.jobs_list import job_entry, jobs_index
from builder.rendering.pages.lists import Entry
from builder.rendering.pages.parts import Used
from builder.rendering.pages.recall_list import recall_entry, recall_list
from builder.rendering.pages.work_pack import job_url
from builder.rendering.writing import AddressTakenError, WrittenFile


class WrittenJob(NamedTuple):
    """What a written job leaves for lists, parts, the finder, the link check and open data."""

    entry: Entry
    recalled: Entry | None
    parts: list[str]  # ids of its amplifiers and cables, each once
    used: Used
    record: DataRecord
    pages: ListedPages
    data_file: WrittenFile

    @property
    def files(self) -> list[WrittenFile]:
        """All files of this job."""
        return [*self.pages.pages.files, self.data_file]


@dataclass(frozen=True, slots=True)
class JobWork:
    """What every worker needs to write jobs.

    `cars` are the files of vehicles by id, `of_book` what pages of begun jobs may lead to.
    """

    writer: SiteWriter
    info: BuildInfo
    checked: CheckedBook
    gate: Gate
    cars: Mapping[str, RecordFile]
    of_book: OfBook


def write_job(work: JobWork, file: RecordFile) -> WrittenJob | Finding | None:
    """Write the pages and the JSON of one job; None where a name of it leads nowhere.

    What nobody foresaw is a finding in the place of the job.
    """
    try:
        made = made_pack(work.checked, file, work.cars, work.gate)
        return None if made is None else _written(work, made)
    except (OSError, AddressTakenError):
        raise  # of the disk or the site, not of this record
    except Exception as error:
        return own_fault(file.shown, error)


def _written(work: JobWork, made: MadePack) -> WrittenJob:
    job, recalls = made.parts.job, made.standing.recalls
    pages: Iterable[Page] = pages_of_job(made, work.info)
    if made.standing.begun:
        pages = without_gone(pages, work.of_book)
    return WrittenJob(
        job_entry(job, made.pack.kind, made.parts.vehicle.title),
        recall_entry(job, recalls) if recalls else None,
        list(dict.fromkeys(_part_ids(made))),
        Used(job_url(job.id), job.title),
        DataRecord(job.id, "job", job.title, made.record_sha256, job.data),
        work.writer.listed(map(work.info.marked, pages)),
        work.writer.written_text(*job_data(made, work.info)),
    )


def _part_ids(made: MadePack) -> Iterator[str]:
    yield from (amplifier.id for amplifier in made.parts.amplifiers.values())
    yield from (cable.id for cable in made.parts.cables)


def jobs_by_part(jobs: Iterable[WrittenJob]) -> dict[str, list[Used]]:
    """Return the jobs that use each amplifier and cable, by the part's id."""
    used: dict[str, list[Used]] = defaultdict(list)
    for job in jobs:
        for part_id in job.parts:
            used[part_id].append(job.used)
    return used


def job_lists(jobs: Sequence[WrittenJob], info: BuildInfo) -> Iterator[Page]:
    """Yield the list of all jobs, and of those that the book speaks against since."""
    yield jobs_index([job.entry for job in jobs], info)
    yield recall_list([job.recalled for job in jobs if job.recalled], info)
