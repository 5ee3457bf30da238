"""What is done with a loom on the table, in order, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.names import FACE_NAMES
from builder.model.parts.loom import LoomEnd
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.loom_wires import cut_wires, half_wire
from builder.planning.circuit.model import end_of
from builder.planning.circuit.terminal_names import plug_name, source_name
from builder.planning.harness.bench_joins import joining_lines, laying_lines, places_of, strip_lines
from builder.planning.harness.cables_of import cable_lines, core_lines, other_cores
from builder.planning.harness.cut_places import APART_M, FROM_PLUG_M
from builder.planning.harness.joint_places import TAPE_MM, exit_mm
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.ring_method import method_lines
from builder.planning.harness.rows import CLOSED_OFF, LoomWireRow, RingOutRow

APART = f"{1000 * APART_M[0]:.0f} to {1000 * APART_M[1]:.0f} mm"


def order_lines(
    plan: LoomPlan,
    rows: Sequence[LoomWireRow],
    index: CircuitIndex,
    ringing: Sequence[RingOutRow],
    bundle: Sequence[str],
) -> Iterator[str]:
    """Yield what is done, one line an act."""
    yield from _ends(plan)
    yield from _made(plan) if plan.use.loom.made == "bench" else _tape(rows)
    joined = [row for row in rows if row.doing in ("cut", "beside", "branch")]
    if joined:
        yield from cable_lines(plan, index)
        yield from strip_lines(joined)
        yield from core_lines(plan, index)
        yield from laying_lines(plan, joined)
        yield from _join(plan, joined)
        yield from (f"close off by itself: {what}" for what in _left_over(index, plan))
        yield from _finish(joined, len(other_cores(plan, index)))
    yield from method_lines(ringing, bundle)
    yield (
        "cloth tape over the joints and over the cores up to the jackets; coil the cables, and lay "
        "the loom aside"
    )


def _ends(plan: LoomPlan) -> Iterator[str]:
    unit, car = plan.ends
    yield (
        f"on the table: the {unit.name} to the left, the {car.name} to the right. Every millimetre "
        f"of this sheet is counted from the back of the {unit.name}, where its wires come out"
    )
    yield f"{_counted(unit)}; {_counted(car)}. The two plugs show each other's mirror image"
    home = plan.use.plug
    yield (
        f'label the plugs: "{plan.use.name}, {unit.name}: into the {source_name(home.unit)}" and '
        f'"{plan.use.name}, {car.name}: takes {plug_name(home)}"'
    )


def _counted(end: LoomEnd) -> str:
    return f"{end.name}, {end.housing}: cavities counted {FACE_NAMES[end.read_from]}"


def _made(plan: LoomPlan) -> Iterator[str]:
    yield (
        "cut every wire of the wire list to its length and 15 mm more for each crimp, of the "
        "colour and size that stand there; a wire that is cut later is cut in one piece first"
    )
    yield (
        "crimp a terminal of the plug's own size on each end with the tool for it, push it into "
        "its cavity until it clicks, and pull at it with 20 N: it stays. Where two wires sit in "
        "one cavity both are in one crimp"
    )
    if plan.use.loom.splices:
        names = ", ".join(f"{each.name} ({each.made})" for each in plan.use.loom.splices)
        yield f"where wires meet inside: {names}; a sleeve over each, {APART} apart"


def _tape(rows: Sequence[LoomWireRow]) -> Iterator[str]:
    places = places_of(rows)
    yield (
        "find each wire at both plugs by its cavity with a continuity tester. One that does "
        "not run "
        "as the wire list has it: stop, cut nothing; this loom is not the one on record. Correct "
        "the record and plan again, or take another loom"
    )
    if places:
        yield (
            f"remove the tape between {min(places) - TAPE_MM:.0f} mm and {exit_mm(places):.0f} mm; "
            "at both plugs it stays, and a wire that goes through is not touched"
        )
    elif any(row.doing in ("cut", "beside") for row in rows):
        yield (
            "remove the tape between the two plugs; measure the loom, and lay the joints "
            f"{APART} apart, none nearer than {1000 * FROM_PLUG_M:.0f} mm to a plug"
        )
    if any(row.doing == "cut" for row in rows):
        yield (
            "put a flag with end and cavity on both sides of each wire that is cut, clear of its "
            "joints: two wires of one colour are told apart by their cavities alone"
        )


def _join(plan: LoomPlan, rows: Sequence[LoomWireRow]) -> Iterator[str]:
    yield from joining_lines(plan, rows)
    if any(row.doing == "beside" for row in rows):
        yield (
            "a wire that another is joined beside stays whole: take 10 mm of its insulation off at "
            "its millimetre, lay the other on, and crimp or solder the two"
        )
    if any(row.doing == "branch" for row in rows):
        yield (
            "what a branch brings out is joined at its bare end, in the order of the wire list: "
            "sleeve on first; crimp or solder; sleeve over the joint, 10 mm over the insulation on "
            "either side, and heat it"
        )
    yield "colour for colour as the wire list has it: car, loom and cable each have their own"


def _left_over(index: CircuitIndex, plan: LoomPlan) -> Iterator[str]:
    """What stays open but the sides of cut wires, which have their lines."""
    cut = {spot for wire in cut_wires(plan) for spot in (wire.start, wire.to)}
    told = {end_of(half_wire(plan, spot), "to") for spot in cut}
    for each in index.circuit.open_ends:
        if each.place == plan.use.name and each.end not in told:
            yield each.what
    for branch in plan.use.loom.branches:
        if branch.housing:
            yield (
                f"the plug of {branch.name}, with tape over its face: nothing of this job goes in, "
                "and it may be live"
            )


def _finish(rows: Sequence[LoomWireRow], others: int) -> Iterator[str]:
    sides = [side for row in rows for side in (row.unit_side, row.car_side) if side]
    closed = sum(side == CLOSED_OFF for side in sides)
    cores = f"; besides {others} of the cables' cores closed off here" if others else ""
    yield (
        f"count: {len(sides) - closed} joints and {closed} ends closed off, each under a sleeve of "
        f"its own{cores}"
    )
