"""Which ends stay open once a job is built, and which of the car's are under a sleeve."""

from __future__ import annotations

from builder.planning.circuit.board import SLEEVE
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, OpenEnd
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
    """Return the ends of the car's own wires that are under a sleeve when the job is done.

    They are opened on the way back; what is spare in a cable or a loom of the job leaves with it.
    """
    if pack.circuit is None:
        return []
    index = CircuitIndex(pack.circuit)
    sleeved = {x.what for x in pack.circuit.open_ends if x.closed_by == SLEEVE and _stays(index, x)}
    return [end for end in pack.insulate if end.what in sleeved]


def _stays(index: CircuitIndex, open_end: OpenEnd) -> bool:
    owner = index.owners.get(open_end.end)
    return isinstance(owner, CircuitWire) and owner.stays
