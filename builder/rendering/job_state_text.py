"""How far a job is, and what is joined, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.job import Job
from builder.planning.job.recalled import Recall
from builder.planning.job.standing import JobStanding
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.job_state import (
    STATES,
    as_built_tables,
    recall_line,
    state_lines,
    state_says,
)
from builder.rendering.terminal import columns


def standing_lines(standing: JobStanding, job: str) -> Iterator[str]:
    """How far a job is, as text: its state, what speaks against it, what failed, what is left."""
    yield f"{STATES[standing.state].upper()}  {state_says(standing)}"
    yield from (f"  {line}" for line in state_lines(standing, job))


def recalls_text(job: Job, recalls: Sequence[Recall]) -> str:
    """A recalled job, and each thing that speaks against it with the reading to take."""
    lines = [f"recall: {job.id}, {job.car.tagged}", *(f"     {recall_line(r)}" for r in recalls)]
    return "\n".join(lines) + "\n"


def as_built_lines(standing: JobStanding) -> Iterator[str]:
    """What is joined, table by table."""
    tables = as_built_tables(standing.as_built) if standing.as_built else []
    for title, _, rows in tables:
        yield from ("", title, *columns(rows))


def job_state_text(job: Job, pack: WorkPack, standing: JobStanding, causes: str) -> str:
    """How far a job is, why its lines failed, what is joined, and the way back."""
    lines = [f"{job.id}: {job.title}, {job.car.tagged}", *standing_lines(standing, job.id)]
    lines += ["", causes.rstrip()] if causes else []
    lines += as_built_lines(standing)
    if standing.begun:
        lines += ["", "Back to stock", *(f"  {at}. {one}" for at, one in enumerate(pack.revert, 1))]
    return "\n".join(lines) + "\n"
