"""The joints of a loom: which of them this job makes."""

from __future__ import annotations

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint, Unit
from builder.planning.views.wiring_rows import made_by_us


def looms_of(index: CircuitIndex) -> list[Unit]:
    """Return the looms of a circuit."""
    return [unit for unit in index.circuit.units if unit.kind == "loom"]


def made_in(index: CircuitIndex, unit: Unit) -> list[Joint]:
    """Return the joints that this job makes in or at a loom."""
    own = {terminal.id for terminal in unit.terminals}
    return [
        joint
        for joint in index.circuit.joints
        if made_by_us(index, joint)
        and (joint.place == unit.id or (joint.kind == "plug_home" and own & {*joint.joins}))
    ]
