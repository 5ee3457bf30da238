"""What the joints outside a loom are crimped with, on the parts list.

A bench sheet counts those of its loom. The rest is named by the copper that meets, as there; where
a size is not on record, as with most of a car's own wires, the shop measures.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.cut_lengths import with_spare
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, EndId, Joint
from builder.planning.harness.bench_counts import barrel_item
from builder.planning.harness.joint_list import BESIDE, barrel_words
from builder.planning.harness.joint_parts import area_mm2
from builder.planning.sheet_rows import PartLine
from builder.planning.words import JointKind

_CRIMPED: tuple[JointKind, ...] = ("splice", "element_lead")


def crimp_lines(
    index: CircuitIndex, joints: Sequence[Joint], defaults: HouseDefaults
) -> Iterator[PartLine]:
    """Yield the barrels and clips of these joints, one line a size; what none holds is soldered."""
    sizes = Counter(size for joint in joints if (size := _size(index, joint, defaults)))
    for size, count in sizes.items():
        if item := barrel_item(size):
            many = "joint" if count == 1 else "joints"
            how = "" if size == BESIDE else "; or solder"
            note = f"{count} {many}{how}; {defaults.spare_share:.0%} spare in it"
            yield PartLine(f"{item}, in the car", with_spare(count, defaults), "", note)


def _size(index: CircuitIndex, joint: Joint, defaults: HouseDefaults) -> str:
    """What a joint takes: a clip beside a whole wire, a barrel; empty for any other kind."""
    if joint.kind == "tap":
        return BESIDE
    if joint.kind not in _CRIMPED:
        return ""
    return barrel_words([_area_mm2(index, end) for end in joint.joins], defaults)


def _area_mm2(index: CircuitIndex, end: EndId) -> float | None:
    owner = index.owners.get(end)
    return area_mm2(owner.size) if isinstance(owner, CircuitWire) else None
