"""What is laid out on the table before a loom is worked on, with quantities."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.joint_places import SLEEVE_MM, TIES_MM
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import CLOSED_OFF, LoomWireRow


def needs_lines(
    plan: LoomPlan, rows: Sequence[LoomWireRow], index: CircuitIndex, bundle: Sequence[str]
) -> Iterator[str]:
    """Yield cables, sleeves, crimps, ties, labels, and what the ring-out takes."""
    mine, others = joined_wires(plan, index), other_cores(plan, index)
    pieces = list(dict.fromkeys(wire.piece for wire in mine))
    yield from _cables(mine)
    sides = [side for row in rows for side in (row.unit_side, row.car_side) if side]
    closed = sum(side == CLOSED_OFF for side in sides)
    joints = len(sides) - closed
    if joints:
        yield from _sleeves(joints, closed, len(others), len(mine) + len(others))
        yield (
            f"{joints} crimp barrels open at both ends, each for the two wires of its joint; or "
            "solder"
        )
        yield f"{len(TIES_MM) * len(pieces)} cable ties; coloured tape for bands; cloth tape"
    flags = 2 * sum(row.doing == "cut" for row in rows)
    yield f"{2 + 2 * len(pieces)} labels: 2 for the plugs, {2 * len(pieces)} for the cables" + (
        f"; {flags} flags for the wires that are cut" if flags else ""
    )
    yield from _contacts(plan, bundle)
    yield (
        "a meter that reads ohms to 0.01 Ω and to its highest range, and millivolts; a bench "
        "supply "
        "with a limit of volts and of amperes; 4 clips, and one that holds the bundle"
    )


def _cables(mine: Sequence[CircuitWire]) -> Iterator[str]:
    """One line a material: how much of it in all, in how many pieces."""
    found: dict[str, dict[str, float | None]] = defaultdict(dict)
    for wire in mine:
        material = wire.cable or (wire.size.words if wire.size else "wire")
        found[material][wire.piece] = wire.length_m
    for material, pieces in found.items():
        known = [each for each in pieces.values() if each is not None]
        metres = f"{shown(sum(known), 1)} m" if len(known) == len(pieces) else "as measured"
        yield f"{material}: {metres}, in {len(pieces)} piece{'s' if len(pieces) > 1 else ''}"


def _sleeves(joints: int, closed: int, cores: int, far: int) -> Iterator[str]:
    yield (
        f"{joints + closed + cores + far} adhesive sleeves of {SLEEVE_MM:.0f} mm, each wide enough "
        f"for both wires and the barrel: {joints} for joints, {closed} for sides of cut wires that "
        f"are closed off, {cores} for other cores at the loom's end, {far} for the far ends after "
        "the ring-out"
    )


def _contacts(plan: LoomPlan, bundle: Sequence[str]) -> Iterator[str]:
    for end in plan.ends:
        held = sum(point.startswith(f"{end.name}.") for point in bundle)
        yield (
            f"{held + 1} contacts that mate with those of the {end.name} ({end.housing}), of the "
            "kind in the plug it goes into, each on two leads: one for every cavity of the bundle, "
            "and one that moves"
        )
