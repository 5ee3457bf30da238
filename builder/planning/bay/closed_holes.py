"""Holes of a job on the way back to stock."""

from __future__ import annotations

from builder.figures import shown
from builder.model.job import Job


def closed_holes(job: Job) -> tuple[str, ...]:
    """Return what becomes of each hole on the way back to stock."""
    return tuple(
        f"Hole in {hole.where} ({shown(hole.size_mm)} mm): paint its edge and plug it"
        for hole in job.holes
    )
