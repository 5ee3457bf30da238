"""Which ends stay open once a job is built, and which of them are closed off under a sleeve."""

from __future__ import annotations

from builder.planning.circuit.board import SLEEVE
from builder.planning.plan import Insulated
from builder.planning.work_pack import WorkPack


def planned_open(pack: WorkPack) -> list[Insulated]:
    """Return the plan's open ends; of a job with a circuit those alone that nothing is joined to.

    A plan knows no amplifier wire yet: the speaker ends that it lists, the circuit joins again.
    """
    if pack.circuit is None:
        return list(pack.plan.insulate)
    stay = {end.what for end in pack.circuit.open_ends}
    return [end for end in pack.plan.insulate if end.what in stay]


def closed_off(pack: WorkPack) -> list[Insulated]:
    """Return the ends that are under a sleeve of their own when the job is done."""
    if pack.circuit is None:
        return []
    sleeved = {end.what for end in pack.circuit.open_ends if end.closed_by == SLEEVE}
    return [end for end in pack.insulate if end.what in sleeved]
