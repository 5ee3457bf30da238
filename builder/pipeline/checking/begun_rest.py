"""What is left of a begun job that no record plans: its as-built part, and what nobody knows."""

from __future__ import annotations

from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.closing import closed_pack, unmade_plan
from builder.pipeline.checking.stand_ins import parts_as_named
from builder.planning.job.refused_pack import empty_pack
from builder.planning.plan import Reason
from builder.planning.work_pack import JobParts, WorkPack

_SOURCE = "the book as it is today"
NOT_KNOWN = "what is joined cannot be told"


_NO_PLAN = Reason("the car's record", "as it stands it gives no plan: check says why", _SOURCE)


def named_pack(job: Job, shelf: Shelf, vehicle: Vehicle) -> tuple[JobParts, WorkPack]:
    """Return a job as its record names it, and a pack that plans nothing and says what is missing.

    A record that is gone takes every figure with it, and no joint.
    """
    named = parts_as_named(job, shelf, vehicle)
    why = tuple(
        Reason(
            f"the record of the {kind} {id}",
            "it is not in the book: what hangs on it, levels, supply and settings, is not known",
            _SOURCE,
        )
        for kind, id in named.missing
    )
    empty = empty_pack(named.parts, unmade_plan(vehicle.id, job.converter))
    return named.parts, closed_pack(empty, why or (_NO_PLAN,), figures=False)


def unknown_pack(pack: WorkPack) -> WorkPack:
    """Return the pack of a job whose results say that it is joined and that nothing plans: no step
    to join by, and that nobody knows from the book what is joined."""
    because = (
        "lines were read that are read after joining, and no record gives a plan: work from the "
        "printed sheets and from the car"
    )
    return closed_pack(pack, (Reason(NOT_KNOWN, because, _SOURCE),), figures=False)
