"""How a loom of one's own is made from bare plugs: wires, contacts, splices, branches."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.parts.loom_wires import Splice
from builder.planning.circuit.loom_wires import fused_at
from builder.planning.circuit.model import colours_of
from builder.planning.harness.cable_ends import along_mm
from builder.planning.harness.joint_list import barrel_words, sleeve_words
from builder.planning.harness.joint_parts import area_mm2
from builder.planning.harness.joint_places import BARE_MM, SLEEVE_MM
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.conductors import Conductor, Terminal, conductors
from builder.planning.power.conductors import conductor_of

CRIMP_MM = 15
HOLDER_MM = 50
"""What a crimp takes of a wire; from a splice or plug to the holder of a fuse, so that it can be
reached. Common practice, no source."""

SPLICE_RULE = (
    f"a splice: bare {BARE_MM:.0f} mm of each of its wires, side by side in one barrel of the size "
    f"that its step says, or soldered where it says so; a sleeve of {SLEEVE_MM:.0f} mm over it, "
    "slid before on the wires of one side, with its middle on the barrel, heated"
)


def made_lines(work: SheetWork) -> Iterator[str]:
    """Yield how the loom itself comes to be."""
    yield _marks(work)
    yield (
        f"cut every wire of the wire list to its length and {CRIMP_MM} mm more for each crimp, of "
        "the colour and size that stand there; one without a length is measured on the board. A "
        "wire that is cut later is cut in one piece first"
    )
    yield (
        "crimp the contact of its cavity on each end that goes into one, with the tool for it; "
        "push it in until it clicks, and pull at it with 20 N: it stays. Where two wires sit in "
        "one cavity both are in one crimp"
    )
    for splice in work.plan.use.loom.splices:
        yield _splice(work, splice)
    for wire in conductors(work.plan.use.loom):
        spot = fused_at(work.plan, wire)
        if spot is not None:
            yield (
                f"{wire.start.shown} to {wire.to.shown}: the holder of its fuse of "
                f"{shown(wire.fuse_a or 0.0)} A goes into it {HOLDER_MM} mm behind "
                f"{spot.shown}, outside the tape; the fuse stays out until the car"
            )
    yield "cloth tape, loosely, along the bundle and each branch, so that all lies as on the board"


def _marks(work: SheetWork) -> str:
    """The marks on the table's board: where every branch leaves and every splice lies."""
    plan, loom = work.plan, work.plan.use.loom
    said = [f"{name} {_at(plan, at_m)}" for name, at_m in loom.lies_m.items()]
    end = "as long as you measure" if loom.length_m is None else f"{1000 * loom.length_m:.0f} mm"
    marks = f"; {', '.join(said)}" if said else ""
    return f"mark on a board: 0 mm, the {plan.ends[1].name} at {end}{marks}"


def _at(plan: LoomPlan, at_m: float | None) -> str:
    place = along_mm(plan, at_m)
    return "where you choose: not on record" if place is None else f"at {place:.0f} mm"


def _splice(work: SheetWork, splice: Splice) -> str:
    wires = [
        w for w in conductors(work.plan.use.loom) if splice.name in (w.start.place, w.to.place)
    ]
    groups: dict[bool, list[float | None]] = {}
    for wire in wires:
        groups.setdefault(_towards_unit(work.plan, wire, splice), []).append(
            area_mm2(conductor_of(wire.wire))
        )
    areas = [area for group in groups.values() for area in group]
    said = ", ".join(f"{_other(wire, splice).shown} {_colours(wire)}" for wire in wires)
    barrel = barrel_words(areas, work.defaults)
    sleeve = sleeve_words([*groups.values()], work.defaults)
    where = f"{splice.name} {_at(work.plan, splice.at_m)}, {splice.made}"
    return f"{where}: the wires to {said}. Barrel {barrel}; sleeve {sleeve}"


def _other(wire: Conductor, splice: Splice) -> Terminal:
    return wire.to if wire.start.place == splice.name else wire.start


def _towards_unit(plan: LoomPlan, wire: Conductor, splice: Splice) -> bool:
    """Whether a wire leaves a splice towards the unit's end: so do branches that leave before."""
    other, loom = _other(wire, splice), plan.use.loom
    if other.place in {end.name for end in plan.ends}:
        return other.place == plan.ends[0].name
    there, here = along_mm(plan, loom.lies_m.get(other.place)), along_mm(plan, splice.at_m)
    return there is not None and here is not None and there < here


def _colours(wire: Conductor) -> str:
    return colours_of(wire.wire) if wire.wire else "of no recorded colour"
