"""What the gate leaves of a work pack: its own findings count, and those of its parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.book import Name
from builder.findings import Finding
from builder.model.job import Job
from builder.pipeline.checking.closing import closed_pack, doubted_pack, nothing_joined
from builder.pipeline.checking.gate import (
    Gate,
    closes,
    names_of_housings,
    only_grades,
    still_open,
)
from builder.pipeline.checking.privacy import SHARED_NAMES_PRIVATE, records_of
from builder.pipeline.checking.shelf import ID_USED_TWICE
from builder.planning.harness.at_plug import looms_of
from builder.planning.work_pack import JobParts, WorkPack

_SHOWN_BY_THE_BOOK = frozenset({ID_USED_TWICE.id, SHARED_NAMES_PRIVATE.id})
"""Findings of a job that neither its own record nor what it names shows."""


_OF_THE_JOB_ITSELF = frozenset({"LOM106"})
"""Findings of a loom that a job judges for itself: wires that are changed over and cut are joined
again by their cavities."""


def passed_pack(
    pack: WorkPack, parts: JobParts, findings: Sequence[Finding], gate: Gate
) -> WorkPack:
    """Return what the gate leaves of a pack: a tap plan only while nothing stands open."""
    own, others = _of_the_job(parts.job, findings, gate), _of_its_parts(parts, gate)
    standing = (*own, *others)
    refusals = gate.refusals(standing)
    if standing and pack.kind == "tap_plan" and only_grades(standing):
        doubts = gate.doubts(standing, parts.vehicle, parts.shelf.defaults)
        return doubted_pack(pack, parts, doubts)
    if standing and (pack.kind == "tap_plan" or closes(standing)):
        return closed_pack(pack, refusals, figures=not others)
    if pack.kind == "tap_plan":
        return pack
    plan = nothing_joined(pack.plan)
    return replace(pack, plan=plan, refusals=(*pack.refusals, *refusals))


def _of_the_job(job: Job, findings: Sequence[Finding], gate: Gate) -> tuple[Finding, ...]:
    """What stands open on the job: what was found now, and what only the whole book shows."""
    of_book = [f for f in gate.on.get(("job", job.id), ()) if f.rule_id in _SHOWN_BY_THE_BOOK]
    return still_open([*findings, *of_book])


def _of_its_parts(parts: JobParts, gate: Gate) -> tuple[Finding, ...]:
    names = sorted(records_of(parts.job) - {("job", parts.job.id)})
    standing = gate.standing([*names, *names_of_housings(parts.vehicle), *_loom_housings(parts)])
    return tuple(each for each in standing if each.rule_id not in _OF_THE_JOB_ITSELF)


def _loom_housings(parts: JobParts) -> Iterator[Name]:
    for use in looms_of(parts).values():
        yield from (("housing", end.housing) for end in use.ends or ())
