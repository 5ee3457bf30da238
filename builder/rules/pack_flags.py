"""What the planner already found wrong with a job, and where in the job that stands."""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath
from builder.model.job import Job
from builder.planning.pack_details import PackFlag
from builder.planning.words import FlagKind
from builder.planning.work_pack import WorkPack


def flags_of(pack: WorkPack, *kinds: FlagKind) -> Iterator[PackFlag]:
    """Yield the flags of these kinds, in the order of the pack."""
    return (flag for flag in pack.flags if flag.kind in kinds)


def speaker_path(job: Job, name: str) -> DataPath:
    """Where the speaker of that name stands; `speakers` as a whole for an unknown one."""
    return next((each.path for each in job.speakers if each.name == name), ("speakers",))


def supply_size_path(job: Job) -> DataPath:
    """Where the size of the supply wire stands; `supply` as a whole when the tool chooses it."""
    if job.supply.size_awg is not None:
        return (*job.supply.path, "size_awg")
    if job.supply.size_mm2 is not None:
        return (*job.supply.path, "size_mm2")
    return job.supply.path
