"""The recall list of a book: the jobs that it speaks against since they were begun."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from builder.book import Book
from builder.model.job import Job
from builder.pipeline.answers.packs import MadePack, made_packs
from builder.pipeline.checking.book_check import check_book
from builder.planning.plan_json import as_json


def recalled_jobs(book: Book, make: str = "") -> list[MadePack]:
    """Return the jobs with a recall, in the order of the book; `make` keeps cars of one maker."""
    checked = check_book(book, jobs=())
    begun = tuple(each for each in checked.jobs if each.job and _may_be_begun(each.job))
    found = made_packs(replace(checked, jobs=begun))
    return [
        made
        for made in found
        if made.standing.recalls and make.casefold() in ("", made.parts.vehicle.make.casefold())
    ]


def _may_be_begun(job: Job) -> bool:
    return job.begun is not None or bool(job.results)


def recall_data(made: MadePack) -> dict[str, Any]:
    """A recalled job as plain data."""
    recalls = [as_json(each) for each in made.standing.recalls]
    return {"job": made.parts.job.id, "car": made.parts.job.car.tag, "recalls": recalls}
