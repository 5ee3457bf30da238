"""The list of all jobs, and a job as a line of any list."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.job import Job
from builder.planning.words import PlanKind
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.lists import Entry, index_page
from builder.rendering.pages.recall_list import RECALLS_URL
from builder.rendering.pages.wording import PLAN_KINDS
from builder.rendering.pages.work_pack import job_url


def job_entry(job: Job, kind: PlanKind, remark: str) -> Entry:
    """Return a job as a line of a list; `kind` is that of its pack."""
    return Entry(job_url(job.id), job.title, f"{PLAN_KINDS[kind]}: {remark}")


def jobs_index(entries: Sequence[Entry], info: BuildInfo) -> Page:
    """Return the list of all jobs."""
    intro = "Each job is one car with its parts chosen: the whole work, in sheets to print."
    recalls = Entry(RECALLS_URL, "Recall list", "jobs that the book speaks against since")
    listed = [*entries, recalls] if entries else []
    return index_page("jobs/index.html", "Jobs", intro, listed, info)
