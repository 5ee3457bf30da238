"""The recall list: the jobs that the book of today speaks against, and the readings to take."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.job import Job
from builder.planning.job.recalled import Recall
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.job_state import recall_line
from builder.rendering.pages.lists import Entry, index_page

RECALLS_URL = "recalls/index.html"
_INTRO = (
    "Each job here is joined to something that the book speaks against since. Have the car back, "
    "take the reading, and add it: it settles the doubt, or says what must be undone."
)
_NONE = "No job is on it: the book speaks against nothing that is joined."


def recall_list(entries: Sequence[Entry], info: BuildInfo) -> Page:
    """Return the list of jobs with a recall; `entries` are those jobs."""
    return index_page(RECALLS_URL, "Recall list", _INTRO if entries else _NONE, entries, info)


def recall_entry(job: Job, recalls: Sequence[Recall]) -> Entry:
    """Return a job as a line of that list."""
    said = "; ".join(map(recall_line, recalls))
    return Entry(f"jobs/{job.id}.html", f"{job.title}, {job.car.tagged}", said)
