"""How a loom of one's own is made from bare plugs: wires, contacts, splices, branches."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.parts import Loom
from builder.model.parts.loom_wires import Splice
from builder.planning.cables.cut_lengths import round_up_m
from builder.planning.circuit.loom_wires import fused_at
from builder.planning.circuit.model import colours_of
from builder.planning.harness.cable_ends import along_mm
from builder.planning.harness.joint_list import MEASURE, barrel_words, sleeve_words
from builder.planning.harness.joint_parts import area_mm2
from builder.planning.harness.joint_places import BARE_MM, SLEEVE_MM
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.conductors import Conductor, Terminal, conductors, length_m
from builder.planning.power.conductors import conductor_of

CRIMP_MM = 15
HOLDER_MM = 50
STRIP_MM = 50
"""What a crimp takes of a wire; from a splice or plug to the holder of a fuse, so that it can be
reached; from the bundle to the strip of tape that holds a branch. Common practice, no source."""

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
                f"{wire.start.shown} to {wire.to.shown}: cut it {HOLDER_MM} mm behind "
                f"{spot.shown}; "
                f"the holder of its fuse of {shown(wire.fuse_a or 0.0)} A goes in there, outside "
                "the tape, each of its leads crimped to a half, from opposite sides, the sleeve "
                "slid on before; barrel and sleeve by measure; the fuse stays out until the car"
            )
    if any(row.doing in ("cut", "beside") for row in work.wires):
        yield "put the flags on each wire that the rules name, counted from its cavity"
    branches = (
        f", round the bundle behind each place where a branch leaves it, and round each branch "
        f"{STRIP_MM} mm from there"
        if work.plan.use.loom.branches
        else ""
    )
    yield (
        "so that all lies as on the board: a strip of cloth tape round the bundle right behind "
        f"either plug{branches}; all else stays open until the ring-out has passed"
    )


def made_needs(work: SheetWork) -> Iterator[str]:
    """Yield the bare plugs, the wire and the holders that a loom made here takes."""
    loom = work.plan.use.loom
    plugs = [(end.housing, end.name) for end in loom.ends]
    plugs += [(each.housing, each.name) for each in loom.branches if each.housing]
    yield "bare plugs: " + "; ".join(f"1 {housing}, the {name}" for housing, name in plugs)
    sizes: dict[str, list[str]] = {}
    for kind, metres in wire_metres(loom).items():
        size, _, colours = kind.partition(", ")
        if metres:
            sizes.setdefault(size, []).append(f"{colours} {shown(round_up_m(metres))} m")
    said = "; ".join(f"{size}: {', '.join(colours)}" for size, colours in sizes.items())
    yield f"single wire, with {CRIMP_MM} mm for each crimp. {said}"
    yield from (
        f"1 holder for a fuse of {shown(wire.fuse_a or 0.0)} A, with leads: "
        f"{wire.start.shown} to {wire.to.shown}"
        for wire in fused_wires(work)
    )


def wire_metres(loom: Loom) -> dict[str, float]:
    """Return how much wire of each size and colour a loom made here takes [m], what crimps take of
    it too; a piece whose length nobody knows adds nothing."""
    found: dict[str, float] = {}
    for wire in conductors(loom):
        size = conductor_of(wire.wire)
        kind = f"{size.words if size else 'a size not recorded'}, {_colours(wire)}"
        long = length_m(loom, wire)
        found.setdefault(kind, 0.0)
        if long is not None:
            found[kind] += long + 2 * CRIMP_MM / 1000
    return found


def fused_wires(work: SheetWork) -> list[Conductor]:
    """Return the wires of a loom that the holder of a fuse is in."""
    loom = work.plan.use.loom
    return [each for each in conductors(loom) if fused_at(work.plan, each) is not None]


def own_joints(work: SheetWork) -> Iterator[tuple[str, str]]:
    """Yield barrel and sleeve of each joint that a loom made here has itself: its splices, and both
    leads of each holder, whose size nobody recorded."""
    if work.plan.use.loom.made != "bench":
        return
    for splice in work.plan.use.loom.splices:
        yield _parts(work, splice)
    for _ in fused_wires(work):
        yield MEASURE, MEASURE
        yield MEASURE, MEASURE


def _parts(work: SheetWork, splice: Splice) -> tuple[str, str]:
    """The barrel and the sleeve of a splice; what leaves it to the same side is side by side."""
    groups: dict[bool, list[float | None]] = {}
    for wire in _meet(work, splice):
        groups.setdefault(_towards_unit(work.plan, wire, splice), []).append(
            area_mm2(conductor_of(wire.wire))
        )
    areas = [area for group in groups.values() for area in group]
    return barrel_words(areas, work.defaults), sleeve_words([*groups.values()], work.defaults)


def _meet(work: SheetWork, splice: Splice) -> list[Conductor]:
    wires = conductors(work.plan.use.loom)
    return [each for each in wires if splice.name in (each.start.place, each.to.place)]


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
    wires, (barrel, sleeve) = _meet(work, splice), _parts(work, splice)
    said = ", ".join(f"{_other(wire, splice).shown} {_colours(wire)}" for wire in wires)
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
