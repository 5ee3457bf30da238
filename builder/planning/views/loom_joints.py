"""The joints of a loom: which of them this job makes."""

from __future__ import annotations

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Joint, OpenEnd, Unit
from builder.planning.views.wiring_rows import made_by_us


def looms_of(index: CircuitIndex) -> list[Unit]:
    """Return the looms of a circuit."""
    return [unit for unit in index.circuit.units if unit.kind == "loom"]


def pieces_at_table(index: CircuitIndex) -> tuple[str, ...]:
    """Return the pieces that are joined to a loom, and so cut and made off at the table."""
    owners = (
        index.owners.get(end)
        for unit in looms_of(index)
        for joint in made_in(index, unit)
        for end in joint.joins
    )
    wires = [each for each in owners if isinstance(each, CircuitWire) and not each.loom]
    return tuple(dict.fromkeys(wire.piece for wire in wires if wire.piece))


def closed_at_table(index: CircuitIndex, end: OpenEnd) -> bool:
    """Whether an end is closed off by a bench sheet: of its loom, or of a cable joined to one."""
    owner = index.owners.get(end.end)
    if end.place in {unit.id for unit in looms_of(index)}:
        return True
    return isinstance(owner, CircuitWire) and owner.piece in pieces_at_table(index)


def made_in(index: CircuitIndex, unit: Unit) -> list[Joint]:
    """Return the joints that this job makes in or at a loom."""
    own = {terminal.id for terminal in unit.terminals}
    return [
        joint
        for joint in index.circuit.joints
        if made_by_us(index, joint)
        and (joint.place == unit.id or (joint.kind == "plug_home" and own & {*joint.joins}))
    ]
