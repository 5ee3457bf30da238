"""How each thing on a bench sheet is done: rules, said once, before the steps that use them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.harness.bench_marks import folded_line
from builder.planning.harness.cables_of import other_cores
from builder.planning.harness.joint_list import WRAPPED
from builder.planning.harness.joint_places import (
    BARE_MM,
    EMPTY_MM,
    FLAG_MM,
    SLEEVE_MM,
    flags_mm,
)
from builder.planning.harness.made_here import SPLICE_RULE
from builder.planning.harness.marks import BESIDE_MM
from builder.planning.harness.sheet_work import SheetWork

NO_SOURCE = "All millimetres here: common practice, no source"


def rule_lines(work: SheetWork) -> Iterator[str]:
    """Yield the rules that this loom needs."""
    if any(row.doing in ("cut", "beside") for row in work.wires):
        yield _flags(work)
    if work.plan.use.loom.splices and work.plan.use.loom.made == "bench":
        yield SPLICE_RULE
    if not work.joints:
        return
    yield "colour for colour as the lists have it: car, loom and cable each have their own"
    if any(row.bands for row in work.cables):
        yield (
            "jacket off: score it round with the jacket knife, not through, bend it till it parts, "
            "pull it off, 100 mm at a time; nick no core"
        )
    if other_cores(work.plan, work.index):
        yield folded_line(work)
    if any(row.joint and row.sleeve != WRAPPED for row in work.joints):
        yield _form(work)
        yield from _sleeve_lines(work)
        yield _pull(work)
    if work.cables or work.closed:
        yield _closed(work)
    yield from _beside(work)
    yield f"{_exact(work)}. {NO_SOURCE}"


def _exact(work: SheetWork) -> str:
    """How exact everything is: so that a core always reaches its joint, and no mark its neighbour.

    Core and wire are never short, and the jacket's edge is never too far from the joints: what is
    too long lies in a bow.
    """
    house = work.defaults
    longer, bared, cable = (
        shown(each, 0)
        for each in (house.bench_longer_mm, house.bench_bared_mm, house.bench_cable_mm)
    )
    edge = ", the edge of a jacket only towards its joints" if work.cables else ""
    roll = (
        f"; jacket off never less, at most {longer} mm more; a cable at most {cable} mm longer"
        if work.cables
        else ""
    )
    return (
        f"how exact: a wire or core never shorter, at most {longer} mm longer: the rest "
        f"lies in a bow{roll}; bared never less, at most {bared} mm more; a cut, tie, flag, label, "
        f"band, tape or sleeve at most {shown(BESIDE_MM)} mm beside its place{edge} (this house's "
        "limits)"
    )


def _flags(work: SheetWork) -> str:
    """How wires are told apart: many have one colour."""
    unit, car = (end.name for end in work.plan.ends)
    cuts = [row.joint_mm for row in work.wires if row.joint_mm is not None]
    near, far = "on the one side of its cut", "on the other"
    if cuts:
        near, far = (f"from {shown(a, 0)} to {shown(b, 0)} mm" for a, b in flags_mm(cuts))
    cut = any(row.doing == "cut" for row in work.wires)
    said = (
        f'two on each wire that is cut: "{unit}" and its cavity {near}, "{car}" and its cavity '
        f"{far}"
        if cut
        else ""
    )
    beside = (
        f'one on each wire that another is joined beside: "{unit}" and its cavity {near}'
        if any(row.doing == "beside" for row in work.wires)
        else ""
    )
    return (
        f"flags: {'; '.join(each for each in (said, beside) if each)}. A flag is a strip of tape "
        f"{shown(FLAG_MM[0])} mm wide, folded round the wire and stuck to itself, written on 3 mm "
        "high; a label is folded round its cable or bundle in the same way, its words outside. "
        f"Wires of one colour are told apart by flags; they stay on, under the tape"
    )


def _form(work: SheetWork) -> str:
    unit, car = (end.name for end in work.plan.ends)
    sides = []
    if any(row.doing == "cut" for row in work.wires):
        sides.append(
            f"on the {unit}'s half the two come from opposite sides, the core's copper beside the "
            f"tip's last {BARE_MM:.0f} mm; on the {car}'s half from the same side, tip "
            "beside tip"
        )
    if any(row.branch and row.joint for row in work.joints):
        sides.append("at a branch both come from the same side, tip beside tip")
    said = "; ".join(sides)
    solder = any("solder" in row.barrel for row in work.joints)
    return (
        f"a joint: both bare ends side by side, their whole {BARE_MM:.0f} mm in one barrel "
        "of the size in its line"
        f"{'; soldered where its line says so' if solder else ''}"
        f"{'. ' + said[0].upper() + said[1:] if said else ''}"
    )


def _sleeve_lines(work: SheetWork) -> Iterator[str]:
    """When each sleeve goes on: one on a core does not come back over a joint of two wires."""
    if any(row.sleeve_on == "before" for row in work.joints):
        yield (
            f'"before": slide its sleeve of {SLEEVE_MM:.0f} mm on the core, up to the '
            "jacket, before the crimp; after the pull back over the joint, with its middle on the "
            "barrel, and heat it, sheet metal between it and its neighbours, as at every sleeve. "
            "Both its ends close on a wire"
        )
    if any(row.joint and row.sleeve_on == "after" for row in work.joints):
        yield (
            '"after": both wires leave the barrel on the same side. After the pull '
            "push the sleeve over the free tip, the barrel and both wires until only "
            f"{shown(EMPTY_MM)} mm of it are empty; heat it, and pinch the empty end flat while it "
            "is hot"
        )


def _closed(work: SheetWork) -> str:
    """How an end is closed off: as a sleeve goes on over a tip, where that is told already."""
    told = any(row.joint and row.sleeve_on == "after" for row in work.joints)
    how = (
        f'a sleeve over its tip, {shown(EMPTY_MM)} mm of it empty, heated and pinched as at "after"'
        if told
        else f"push a sleeve over its tip until only {shown(EMPTY_MM)} mm of it are empty, heat "
        "it, and pinch the empty end flat while it is hot"
    )
    return f'"closed off by itself": the end is not stripped; {how}'


def _pull(work: SheetWork) -> str:
    """Where a joint is held: the plug, a contact and a tie are no part of the pull."""
    ways = []
    if any(row.sleeve_on == "before" for row in work.joints):
        ways.append(
            "wires from opposite sides: they hold the insulation of each, 10 mm beside the barrel"
        )
    if any(row.joint and row.sleeve_on == "after" for row in work.joints):
        ways.append(
            "wires from the same side: one holds the barrel, the other the insulation of the one "
            "wire, then of the other"
        )
    return (
        f"the pull: {JOINT_PULL_N:.0f} N with the spring balance, hooked to one of two pliers; "
        f"{'; '.join(ways)}. Never pull at a plug or at a cable. What comes "
        'out is made anew, as told under "A line that fails"; then go on with the joint list'
    )


def _beside(work: SheetWork) -> Iterator[str]:
    if any(row.sleeve == WRAPPED for row in work.joints):
        yield (
            '"beside it, it stays whole": take 10 mm of the insulation off, from 5 mm before its '
            "millimetre to 5 mm behind, and cut no strand; lay 10 mm of bare wire or lead beside "
            "it; close an open crimp clip round both. Nothing can be slid over a whole "
            "wire: two layers of self-sealing tape, drawn out as you wind, from 10 mm before the "
            "bare metal to 10 mm behind it"
        )
    if any(row.side.startswith("far lead") for row in work.joints):
        yield (
            "a fuse that is tapped in: its holder lies along the bundle, tied, clear of every "
            "joint; the fuse itself stays out until the car. Its leads and their sleeve are "
            "measured on the table: their size is not on record. The core is cut when the holder "
            "lies"
        )
