"""What the lines of a bench sheet are written from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.planning.circuit.index import CircuitIndex
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomCableRow, LoomJointRow, LoomWireRow, RingOutRow


@dataclass(frozen=True, slots=True)
class SheetWork:
    """A loom, the circuit it is part of, the housings of the book, and the sheet's own rows."""

    plan: LoomPlan
    index: CircuitIndex
    housings: Mapping[str, Housing]
    defaults: HouseDefaults
    wires: tuple[LoomWireRow, ...]
    cables: tuple[LoomCableRow, ...]
    joints: tuple[LoomJointRow, ...]
    ringing: tuple[RingOutRow, ...]
    bundle: tuple[str, ...]

    @property
    def closed(self) -> int:
        """How many ends of the loom's own wires are closed off."""
        return sum(not row.joint for row in self.joints)

    @property
    def bundle_edge_mm(self) -> float | None:
        """Where the jackets of the cables on the bundle end, from the unit's end."""
        edges = (row.edge_mm for row in self.cables if not row.branch)
        return next((each for each in edges if each is not None), None)
