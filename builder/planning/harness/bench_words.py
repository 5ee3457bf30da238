"""What is done with a loom on the table, in order, in words."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.circuit.loom_wires import cut_wires, half_wire
from builder.planning.circuit.model import end_of
from builder.planning.harness.bench_cables import cable_lines
from builder.planning.harness.bench_counts import used_words
from builder.planning.harness.bench_joins import (
    cutting_lines,
    joining_lines,
    laying_lines,
    places_of,
)
from builder.planning.harness.bench_marks import NAME_STRIP, plug_label_line
from builder.planning.harness.cut_places import APART_M, FROM_PLUG_M
from builder.planning.harness.joint_places import exit_mm
from builder.planning.harness.made_here import made_lines
from builder.planning.harness.ring_method import begin_lines, lead_lines
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.conductors import leading_to

APART = f"{1000 * APART_M[0]:.0f} to {1000 * APART_M[1]:.0f} mm"
LENGTH_MM = (-5, 20)
"""How far a loom may be from its recorded length: less and the ties meet the car's plug; more and
it is another loom. Common practice, no source."""


def order_lines(work: SheetWork) -> Iterator[str]:
    """Yield what is done, one line an act."""
    yield from _ends(work)
    yield from lead_lines(work)
    yield from made_lines(work) if work.plan.use.loom.made == "bench" else _bought(work)
    if work.joints:
        yield from cutting_lines(work)
        yield from cable_lines(work)
        yield from laying_lines(work)
        yield from joining_lines(work)
        yield from (f"close off by itself: {what}" for what in _left_over(work))
        yield _count(work)
    yield from begin_lines(work, fused=_is_fused(work))
    yield _taped(work)
    yield plug_label_line(work)
    yield "coil the cables, and lay the loom aside"


def _taped(work: SheetWork) -> str:
    """Under jackets and ties no tape goes: of a loom that was bought the tape stayed there."""
    cut = any(row.doing == "cut" for row in work.wires)
    flags = ", over flags and a jacket that was pushed" if cut else ""
    under, ends = "", "plugs"
    if any(not row.branch for row in work.cables) and places_of(work):
        made = work.plan.use.loom.made == "bench"
        stays = "is held by the ties, without tape" if made else "lies in the tape it came with"
        under, ends = f"; behind that the bundle {stays}", work.plan.ends[0].name
    return (
        f"cloth tape, wound half over itself, over all that lies open, up to the {ends} and over "
        f"the cores up to {_edges(work)}{flags}{under}; ties, labels, bands and cores that are "
        "folded back stay outside it"
    )


def _edges(work: SheetWork) -> str:
    """Where the jackets end by the list: one that was pushed ends nearer."""
    if work.bundle_edge_mm is None or any(row.branch for row in work.cables):
        return "the edges of the jackets"
    return f"{work.bundle_edge_mm:.0f} mm"


def _ends(work: SheetWork) -> Iterator[str]:
    unit, car = work.plan.ends
    where = "on the table" if work.plan.use.loom.made != "bench" else "so will it lie on its board"
    yield (
        f"{where}: the {unit.name} to the left, the {car.name} to the right, both latches "
        f"down, the bundle straight, {NAME_STRIP}. Every millimetre on it "
        f"is counted from the back of the {unit.name}, where its wires come out"
        + _far_back(work)
        + (
            "; every millimetre on a branch from where it leaves the bundle"
            if work.plan.use.loom.branches
            else ""
        )
    )


def _far_back(work: SheetWork) -> str:
    """Where the other plug begins; of a loom that was bought it is measured first."""
    loom, car = work.plan.use.loom, work.plan.ends[1].name
    if loom.length_m is None:
        return f"; measure where the back of the {car} lies"
    lies = f"; the back of the {car} lies at {1000 * loom.length_m:.0f} mm"
    if loom.made == "bench":
        return lies
    least, most = LENGTH_MM
    return (
        f"{lies}. Measure it: {-least} mm less to {most} mm more is right. Otherwise stop, and "
        "tell who planned this job: the loom's record is wrong"
    )


def _bought(work: SheetWork) -> Iterator[str]:
    places = places_of(work)
    begin, flagged = work.plan.ends[0].name, any(r.doing in ("cut", "beside") for r in work.wires)
    if places:
        yield (
            f"take the tape off from the back of the {begin} to {exit_mm(places):.0f} mm, no "
            "farther; cut and bare no wire that goes through"
        )
    elif flagged:
        yield (
            "remove the tape between the two plugs; measure the loom, and lay the joints "
            f"{APART} apart, none nearer than {1000 * FROM_PLUG_M:.0f} mm to a plug"
        )
    flags = (
        ". One that gets flags: take hold of it where it leaves that cavity at the back of the "
        f"{begin}, follow it with two fingers to where the tape stays, and put its flags on before "
        "the next is touched; from the last flag follow it back once more, and read the cavity"
    )
    yield (
        "one wire at a time, from the top of the wire list: ring it with the continuity tester "
        "from its one cavity to its other, a test contact in each, and tick it under "
        f"Found{flags if flagged else ''}. One that does not run as the wire list has it: stop, "
        "cut nothing, and tell who planned this job: this loom is not the one on record"
    )


def _is_fused(work: SheetWork) -> bool:
    elements = work.index.circuit.elements
    return any(each.kind == "fuse" and each.place == work.plan.use.name for each in elements)


def _left_over(work: SheetWork) -> Iterator[str]:
    """What stays open but what the joint list closes off."""
    cut = {spot for wire in cut_wires(work.plan) for spot in (wire.start, wire.to)}
    told = {end_of(half_wire(work.plan, spot), "to") for spot in cut}
    bare = {row.wire for row in work.joints if not row.joint}
    for each in work.index.circuit.open_ends:
        own = each.end not in told and not any(f" {wire} @" in each.end for wire in bare)
        if each.place == work.plan.use.name and own:
            yield each.what
    joined = {row.side for row in work.joints}
    for branch in work.plan.use.loom.branches:
        if branch.housing and f"plug of {branch.name}" not in joined:
            yield (
                f"the plug of {branch.name}, with tape over its face: nothing of this job goes "
                f"in, and it may be live{_guarded(work, branch.name)}"
            )


def _guarded(work: SheetWork, branch: str) -> str:
    """Why a plug that stays empty has a fuse: its wire is live all the same."""
    fuses = [x.fuse_a for x in leading_to(work.plan.use.loom, branch) if x.fuse_a is not None]
    said = " and ".join(f"{shown(each)} A" for each in fuses)
    return f"; its fuse of {said} goes in with the others, to guard its wire" if fuses else ""


def _count(work: SheetWork) -> str:
    joints = len(work.joints) - work.closed
    closed = f", {work.closed} ends of the loom's wires closed off" if work.closed else ""
    return f"count, all lines of the joint list ticked: {joints} joints{closed}: {used_words(work)}"
