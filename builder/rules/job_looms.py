"""What the planner found wrong with the looms of a job, and where in the job that stands."""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.harness.at_plug import looms_of
from builder.planning.words import LoomFlagKind
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of

_NOBODY_KNOWS: tuple[LoomFlagKind, ...] = ("loom_no_size", "loom_undescribed")
"""What says only that no record tells it."""


def loom_faults(
    pack: WorkPack, parts: JobParts, kind: LoomFlagKind, help: str, *, milder: Severity
) -> Iterator[Fault]:
    """Yield the flags of a kind; one that stops nothing is of a milder severity."""
    paths = {use.name: use.path for use in looms_of(parts).values()}
    for flag in flags_of(pack, kind):
        severity = None if flag.stops else milder
        says, open_ = f"{flag.where}: {flag.says}", flag.kind in _NOBODY_KNOWS
        yield Fault(paths[flag.where], says, help, severity=severity, nobody_knows=open_)
