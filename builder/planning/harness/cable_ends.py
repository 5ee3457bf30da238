"""Where the cables of a loom come to it, and how long each core is from its jacket."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from builder.model.parts.loom import Branch
from builder.planning.cables.piece_names import CABLE
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.joint_places import (
    BARE_MM,
    BRANCH_APART_MM,
    BRANCH_EDGE_MM,
    SLEEVE_MM,
    TIES_MM,
    TURN_MM,
    core_mm,
    exit_mm,
)
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.wire_rows import WireOfLoom


class OnBranch(NamedTuple):
    """A joint at a branch [mm]: from where the branch leaves; the core from its jacket."""

    cut: float | None
    tip: float | None
    core: float
    sleeve: tuple[float, float] | None


class CableEnds:
    """The ends of the cables of one loom, on its bundle or at its branches.

    At a branch a cable comes from outside and is tied to the branch's wires by its jacket, so its
    cores turn round at the jacket's edge and run out with the wires to where these end.
    """

    def __init__(self, plan: LoomPlan, wires: Sequence[WireOfLoom]) -> None:
        self.plan = plan
        self.cuts = [at for wire in wires if (at := wire.joint_mm()) is not None]
        self._at: dict[str, Branch] = {}
        self._joints: Counter[str] = Counter()
        for wire in wires:
            for side in wire.sides():
                branch = wire.branch_of(side.end)
                if branch is not None:
                    cores = [*wire.cores_at(side)]
                    self._joints[branch.name] += bool(cores)
                    self._at |= {core.piece: branch for core in cores}

    def branch_of(self, piece: str) -> Branch | None:
        """The branch that a cable is joined at; None on the bundle."""
        return self._at.get(piece)

    def edge_mm(self, piece: str) -> float | None:
        """Where a cable's jacket ends [mm]: from the unit's end, or from where a branch leaves."""
        branch = self.branch_of(piece)
        if branch is None:
            return exit_mm(self.cuts) if self.cuts else None
        return self._branch_edge_mm(branch)

    def _branch_edge_mm(self, branch: Branch) -> float | None:
        """None where the branch is too short for ties before its joints, or of unknown length."""
        if branch.length_m is None or branch.housing:
            return None
        joints = self._joints[branch.name]
        edge = 1000 * branch.length_m - BRANCH_APART_MM * max(0, joints - 1) - BRANCH_EDGE_MM
        return edge if edge >= TIES_MM[-1] + BARE_MM else None

    def core_mm(self, wire: WireOfLoom, core: CircuitWire, end: str = "") -> float | None:
        """How long a core is from its jacket to a joint on the bundle [mm]."""
        at = wire.joint_mm()
        if at is None or not core.piece.startswith(CABLE):
            return None
        branch, unit = self.branch_of(core.piece), self.plan.ends[0].name
        if branch is None and wire.cut:
            return core_mm(self.cuts, at, "unit" if end == unit else "car")
        if branch is None:
            return exit_mm(self.cuts) - at + BARE_MM
        edge, leaves = self._branch_edge_mm(branch), along_mm(self.plan, branch.at_m)
        return None if edge is None or leaves is None else edge + abs(leaves - at) + BARE_MM

    def on_branch(self, branch: Branch, number: int) -> OnBranch | None:
        """Where the joint of a branch lies that is the so manieth of it, from 0; None: measure."""
        edge = self._branch_edge_mm(branch)
        if edge is None or branch.length_m is None:
            return None
        tip = 1000 * branch.length_m - BRANCH_APART_MM * number
        middle = tip - BARE_MM / 2
        sleeve = (middle - SLEEVE_MM / 2, middle + SLEEVE_MM / 2)
        return OnBranch(tip, tip, tip - edge + TURN_MM, sleeve)


def along_mm(plan: LoomPlan, at_m: float | None) -> float | None:
    """Return a place of the record, counted from its first end, from the unit's end [mm]."""
    loom, unit = plan.use.loom, plan.ends[0].name
    if at_m is None:
        return None
    if loom.ends[0].name == unit:
        return 1000 * at_m
    return None if loom.length_m is None else 1000 * (loom.length_m - at_m)
