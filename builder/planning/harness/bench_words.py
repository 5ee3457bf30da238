"""What is done with a loom on the table, in order, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.model.names import FACE_NAMES
from builder.model.parts.loom import LoomEnd
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.terminal_names import source_name
from builder.planning.harness.cables_of import cable_lines
from builder.planning.harness.cut_places import APART_M, FROM_PLUG_M
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import CLOSED_OFF, LoomWireRow
from builder.planning.looms.ring_out import TEST_CURRENT_A

APART = f"{1000 * APART_M[0]:.0f} to {1000 * APART_M[1]:.0f} mm"
FROM_JOINTS_MM = 30.0
"""How far from the first and the last joint the tape comes off. Common practice, no source."""

_METHOD = (
    "ring-out, ohms: hold the two probe tips together, write down what the meter reads, and take "
    "it off every reading",
    f"ring-out, millivolts: send {shown(TEST_CURRENT_A)} A through the two points named, from a "
    "bench supply set to that current, and read the volts with two more probes on the bare metal "
    "of the same points; so no lead is measured. 100 mV at 1 A are 0.1 Ω",
    "how to touch: a cavity from its open face with a contact of the mating size on a lead, never "
    "a probe pushed in; of a cable bare 5 mm of each conductor at its other end, and close them "
    "apart from each other afterwards, until the car",
    "ring-out, apart: twist or clip all points of the bundle together, take out the one that is "
    "measured, meter on its highest ohms: it must read open; put it back before the next",
    "a line that fails: mend it, then begin at line 1 again. Nothing of the car comes apart before "
    "all have passed",
)


def order_lines(plan: LoomPlan, rows: Sequence[LoomWireRow], index: CircuitIndex) -> Iterator[str]:
    """Yield what is done, one line an act."""
    yield from _ends(plan)
    yield from _made(plan) if plan.use.loom.made == "bench" else _tape(rows)
    joined = [row for row in rows if row.doing in ("cut", "beside", "branch")]
    if joined:
        yield from cable_lines(plan, index)
        yield from _join(plan, joined)
        yield from (f"close off by itself: {what}" for what in _left_over(index, plan))
        yield from _finish(joined)
    yield from _METHOD
    unit, car = plan.ends
    home = plan.use.plug
    yield (
        "all lines passed: cloth tape over the joints, coil the cables, label the plugs: "
        f'"{plan.use.name}, {unit.name}: into the {source_name(home.unit)}" and '
        f'"{plan.use.name}, {car.name}: takes plug {home.id}", and lay it aside'
    )


def _ends(plan: LoomPlan) -> Iterator[str]:
    unit, car = plan.ends
    yield (
        f"on the table: the {unit.name} to the left, the {car.name} to the right. Every millimetre "
        f"of this sheet is counted from the back of the {unit.name}, where its wires come out"
    )
    yield f"{_counted(unit)}; {_counted(car)}. The two plugs show each other's mirror image"


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
    places = _places(rows)
    if places:
        low, high = min(places) - FROM_JOINTS_MM, max(places) + FROM_JOINTS_MM
        yield (
            f"tape off between {low:.0f} mm and {high:.0f} mm; at both plugs it stays, and a wire "
            "that goes through is not touched"
        )
    elif any(row.doing in ("cut", "beside") for row in rows):
        yield (
            "tape off between the two plugs; measure the loom, and lay the joints "
            f"{APART} apart, none nearer than {1000 * FROM_PLUG_M:.0f} mm to a plug"
        )
    yield "find each wire at both plugs by its cavity with a continuity tester before it is cut"


def _places(rows: Sequence[LoomWireRow]) -> list[float]:
    return [row.joint_mm for row in rows if row.joint_mm is not None]


def _join(plan: LoomPlan, rows: Sequence[LoomWireRow]) -> Iterator[str]:
    places = _places(rows)
    cut = [row for row in rows if row.doing == "cut"]
    if cut:
        yield (
            f"cut {len(cut)} wires, each at its own millimetre, one at a time in the order of the "
            "wire list: cut it, join both sides, then the next. Take 15 mm off either side, so "
            "that its two sleeves lie one behind the other and never on each other; joints of one "
            f"side are {APART} apart. A side that is closed off is cut back 10 mm further"
        )
    if any(row.doing == "beside" for row in rows):
        yield (
            "a wire that another is joined beside stays whole: take 10 mm of its insulation off at "
            "its millimetre, lay the other on, and crimp or solder the two"
        )
    if any(row.doing == "branch" for row in rows):
        yield "what a branch brings out is joined at its bare end, in the order of the wire list"
    if places:
        leave = max(places) + FROM_JOINTS_MM
        yield (
            f"every cable leaves the bundle at {leave:.0f} mm, towards the {plan.ends[1].name}: "
            f"take {leave - min(places) + 20:.0f} mm of its jacket off, and shorten each conductor "
            "to its joint"
        )
    yield (
        "at every joint: sleeve on first, a hand's breadth back; crimp or solder; sleeve over the "
        "joint and heat it. The sleeve is wide enough for both wires and reaches 10 mm over the "
        "insulation on either side"
    )
    yield (
        "colour for colour as the wire list has it: car, loom and cable each have their own, and "
        "two wires of one colour are told apart by their cavities alone"
    )


def _left_over(index: CircuitIndex, plan: LoomPlan) -> Iterator[str]:
    for each in index.circuit.open_ends:
        if each.place == plan.use.name:
            yield each.what
    for branch in plan.use.loom.branches:
        if branch.housing:
            yield (
                f"the plug of {branch.name}, with tape over its face: nothing of this job goes in, "
                "and it may be live"
            )


def _finish(rows: Sequence[LoomWireRow]) -> Iterator[str]:
    sides = [side for row in rows for side in (row.unit_side, row.car_side) if side]
    closed = sum(side == CLOSED_OFF for side in sides)
    yield (
        f"count: {len(sides) - closed} joints and {closed} ends closed off, each under a sleeve of "
        "its own"
    )
    yield (
        "strain relief: tie each cable to the bundle where it leaves, and again 50 mm further on; "
        "a pull at a cable never reaches a joint"
    )
