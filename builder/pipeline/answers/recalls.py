"""The recall list of a book: the jobs that it speaks against since they were begun."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from builder.book import Book, RecordFile
from builder.model.job import Job
from builder.pipeline.answers.kept_wanted import keep_numbers, known_numbers
from builder.pipeline.answers.packs import MadePack, cars_by_id, cars_of, packs_of
from builder.pipeline.checking.book_check import check_book
from builder.planning.plan_json import as_json

_RECALLED = "recalled"


def recalled_jobs(book: Book, make: str = "") -> list[MadePack]:
    """Return the jobs with a recall, in the order of the book; `make` keeps cars of one maker.

    Which they are is kept under the digest of the book: where it is known, only they are planned.
    """
    jobs = [file for file in book.files() if file.kind == "job" and not file.is_template]
    known = known_numbers(book, _RECALLED)
    if known is None:
        found = dict(_recalled(book, jobs, None))
        keep_numbers(book, [at for at, job in enumerate(jobs) if job in found], _RECALLED)
    else:
        some = [jobs[number] for number in known]
        found = dict(_recalled(book, some, cars_of(some, book))) if some else {}
    maker = make.casefold()
    return [m for m in found.values() if maker in ("", m.parts.vehicle.make.casefold())]


def _recalled(
    book: Book, jobs: Sequence[RecordFile], about: Sequence[Path] | None
) -> Iterator[tuple[RecordFile, MadePack]]:
    """Yield those of these jobs that have a recall, with their packs."""
    checked = check_book(book, jobs=(), about=about)
    cars, gate = cars_by_id(book), checked.gate()
    for each in checked.jobs:
        if each.file in jobs and each.job and _may_be_begun(each.job):
            for made in packs_of(checked, [each], cars, gate):
                if made.standing.recalls:
                    yield each.file, made


def _may_be_begun(job: Job) -> bool:
    return job.begun is not None or bool(job.results)


def recall_data(made: MadePack) -> dict[str, Any]:
    """A recalled job as plain data."""
    recalls = [as_json(each) for each in made.standing.recalls]
    return {"job": made.parts.job.id, "car": made.parts.job.car.tag, "recalls": recalls}
