"""What is fixed to the car and drilled into it, before any cable is laid."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.job import Hole, Job
from builder.model.job.places import FixedBy
from builder.planning.bay.step_line import step
from builder.planning.sheet_rows import Step

_BLIND = "nobody has looked behind it: no drill and no screw before somebody has"
_DRILL = "lining off, a hand or a lamp behind; a stop on the drill; a small hole first"
_HOLDS: dict[FixedBy, str] = {
    "screws": "screwed to",
    "bolts": "bolted to",
    "strap": "strapped to",
    "rail": "on the rail of",
    "glue": "glued or taped to",
}


def fixing_steps(job: Job) -> Iterator[Step]:
    """Yield each hole with what is behind it, then what is fixed where."""
    for hole in job.holes:
        yield _hole(hole)
    if job.holes:
        yield step("build", "every hole: edge smoothed, painted, a grommet where a wire passes")
    for mount in job.mounts:
        yield step("build", f"{mount.device}: {_HOLDS[mount.by]} {mount.fixed_to}")


def _hole(hole: Hole) -> Step:
    said = f"hole of {shown(hole.size_mm)} mm, {hole.where}, for {hole.purpose}"
    if not hole.known:
        return step("build", f"{said}: behind it {hole.behind or 'nobody knows what'}", "", _BLIND)
    return step("build", f"{said}: behind it {hole.behind}, as {hole.looked_by} saw", _DRILL)


def closed_holes(job: Job) -> tuple[str, ...]:
    """Return what becomes of each hole on the way back to stock."""
    return tuple(
        f"Hole in {hole.where} ({shown(hole.size_mm)} mm): paint its edge and plug it."
        for hole in job.holes
    )
