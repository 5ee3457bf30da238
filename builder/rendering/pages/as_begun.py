"""The page of a recalled job's pack as it was begun: to be read, never to work from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.findings import Finding
from builder.planning.job.standing import JobStanding
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.work_pack import work_pack_page


def as_begun_url(job_id: str) -> str:
    """Where it stands; no job has such an id."""
    return f"jobs/{job_id}--as-begun.html"


def as_begun_page(
    pack: WorkPack,
    parts: JobParts,
    findings: Sequence[Finding],
    info: BuildInfo,
    digest: str,
    standing: JobStanding,
) -> Page:
    """Return every sheet of the pack that a recalled job was begun with, `pack`.

    Each sheet says what it is, and nothing on it can be ticked or filled in.
    """
    whole = replace(standing, state="begun")  # the recalls stay, and are told first
    page = work_pack_page(pack, parts, findings, info, digest, whole)
    title = f"As begun on {standing.begun}: {parts.job.title}, {parts.vehicle.title}"
    what = f"{title}. Recalled since: to be read, not worked from."
    return replace(page, url=as_begun_url(parts.job.id), title=title, description=what, scripts=())
