"""The pages and the data file of a job, and where pages of its vehicle link to it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from builder.pipeline.answers.packs import MadePack
from builder.pipeline.answers.returned import comeback_of
from builder.pipeline.checking.book_check import CheckedBook
from builder.planning.comeback.caught import catches
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.as_begun import as_begun_page
from builder.rendering.pages.bay_causes import bay_causes
from builder.rendering.pages.comeback import comeback_page
from builder.rendering.pages.jobs_list import job_entry
from builder.rendering.pages.lists import Entry
from builder.rendering.pages.work_pack import work_pack_page
from builder.rendering.record_json import record_json


def pages_of_job(made: MadePack, info: BuildInfo) -> Iterator[Page]:
    """Yield the work pack of one job, and what is asked when it comes back."""
    back = comeback_of(made) if made.pack.circuit is not None else None
    page = work_pack_page(
        made.pack, made.parts, made.findings, info, made.digest, made.standing,
        catches(back.causes) if back else (),
        bay_causes(back) if back and made.pack.steps else "",
    )  # fmt: skip
    yield page
    if made.standing.recalls:
        yield as_begun_page(
            made.planned, made.parts, made.findings, info, made.digest, made.standing
        )
    if back is not None:
        yield comeback_page(back, info, page.foot)


def job_data(made: MadePack, info: BuildInfo) -> tuple[str, str]:
    """Return address and JSON of a job: the record as typed, and the pack made of it, apart."""
    pack = made.as_data()
    for finding in pack["findings"]:  # where the book stands on a disk is nobody's business
        finding["file"] = f"jobs/{made.parts.job.id}.yaml"
    computed = {"digest": made.digest, "pack": pack}
    text = record_json("job", made.data, computed, info, made.record_sha256)
    return f"data/jobs/{made.parts.job.id}.json", text


def jobs_by_vehicle(checked: CheckedBook) -> dict[str, list[Entry]]:
    """Return the jobs that have a page, by the id of their vehicle."""
    found: dict[str, list[Entry]] = defaultdict(list)
    for job in checked.jobs:
        if job.job is not None and job.pack:
            found[job.job.vehicle].append(job_entry(job.job, job.pack, job.job.wanted))
    return dict(found)
