"""What devices are fixed with, and what goes into the holes of a job, on the parts list."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.job import Job
from builder.model.job.places import FixedBy
from builder.planning.sheet_rows import PartLine

_WITH: dict[FixedBy, str] = {
    "screws": "set of screws",
    "bolts": "set of bolts",
    "strap": "strap to fix it",
    "rail": "set of bolts for a rail",
    "glue": "glue or tape to fix it",
}


def fixing_lines(job: Job) -> Iterator[PartLine]:
    """Yield what each device is fixed with, and to, and what each hole is made for."""
    for mount in job.mounts:
        note = f"{mount.device}, fixed to {mount.fixed_to}: that too, where the car has none"
        yield PartLine(_WITH[mount.by], 1, "", note)
    for hole in job.holes:
        note = f"into the hole of {shown(hole.size_mm)} mm, {hole.where}"
        yield PartLine(hole.purpose, 1, "", note)
