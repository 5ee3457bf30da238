"""The pages and data files of a book's jobs, and where other pages link to them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from builder.pipeline.answers.packs import MadePack
from builder.pipeline.answers.returned import comeback_of
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.own_fault import OwnFaultsError, own_fault
from builder.planning.comeback.caught import catches
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.as_begun import as_begun_page
from builder.rendering.pages.bay_causes import bay_causes
from builder.rendering.pages.comeback import comeback_page
from builder.rendering.pages.jobs_list import job_entry, jobs_index
from builder.rendering.pages.lists import Entry
from builder.rendering.pages.parts import Used
from builder.rendering.pages.recall_list import recall_list
from builder.rendering.pages.work_pack import job_url, work_pack_page
from builder.rendering.record_json import record_json


def job_pages(packs: Sequence[MadePack], info: BuildInfo) -> Iterator[Page]:
    """Yield the work pack of every job, and what is asked when it comes back; then their list.

    Raises:
        OwnFaultsError: loombook could not draw some of them; the others were tried too.
    """
    failed = []
    for made in packs:
        try:
            yield from _pages_of(made, info)
        except Exception as error:
            failed.append(own_fault(f"jobs/{made.parts.job.id}.yaml", error))
    if failed:
        raise OwnFaultsError(failed)
    entries = [job_entry(m.parts.job, m.pack.kind, m.parts.vehicle.title) for m in packs]
    yield jobs_index(entries, info)
    yield recall_list([(m.parts.job, m.standing.recalls) for m in packs], info)


def _pages_of(made: MadePack, info: BuildInfo) -> Iterator[Page]:
    """The work pack of one job, and what is asked when it comes back."""
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


def job_files(packs: Sequence[MadePack], info: BuildInfo) -> Iterator[tuple[str, bytes]]:
    """Yield the JSON of every job: the record as typed, and the pack made of it, apart."""
    for made in packs:
        pack = made.as_data()
        for finding in pack["findings"]:  # where the book stands on a disk is nobody's business
            finding["file"] = f"jobs/{made.parts.job.id}.yaml"
        computed = {"digest": made.digest, "pack": pack}
        text = record_json("job", made.data, computed, info, made.record_sha256)
        yield f"data/jobs/{made.parts.job.id}.json", text.encode()


def jobs_by_vehicle(checked: CheckedBook) -> dict[str, list[Entry]]:
    """Return the jobs that have a page, by the id of their vehicle."""
    found: dict[str, list[Entry]] = defaultdict(list)
    for job in checked.jobs:
        if job.job is not None and job.pack:
            found[job.job.vehicle].append(job_entry(job.job, job.pack, job.job.wanted))
    return dict(found)


def jobs_by_part(packs: Sequence[MadePack]) -> dict[str, list[Used]]:
    """Return the jobs that use each amplifier and cable, by the part's id."""
    used: dict[str, list[Used]] = defaultdict(list)
    for made in packs:
        ids = [amplifier.id for amplifier in made.parts.amplifiers.values()]
        ids += [cable.id for cable in made.parts.cables]
        for part_id in dict.fromkeys(ids):
            used[part_id].append(Used(job_url(made.parts.job.id), made.parts.job.title))
    return used
