"""How cables are laid and wires joined on the table: the form of a joint; where, the list says."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.harness.joint_list import WRAPPED
from builder.planning.harness.joint_places import (
    BARE_MM,
    CUT_BACK_MM,
    EMPTY_MM,
    SLEEVE_MM,
    TIES_MM,
    exit_mm,
)
from builder.planning.harness.rows import LoomCableRow
from builder.planning.harness.sheet_work import SheetWork

_NO_SOURCE = "These millimetres are common practice, no source"


def places_of(work: SheetWork) -> list[float]:
    """Return where wires are cut or joined beside [mm]."""
    return [row.joint_mm for row in work.wires if row.joint_mm is not None]


def laying_lines(work: SheetWork) -> Iterator[str]:
    """Yield where the cables are laid and tied before anything is joined."""
    on_bundle = [row for row in work.cables if not row.branch]
    if on_bundle and places_of(work):
        yield from _on_bundle(work, on_bundle)
    elif on_bundle:
        yield (
            "strain relief: tie each cable to the bundle by its jacket where it leaves, and again "
            "20 mm further on, never round a core"
        )
    for row in work.cables:
        if row.branch:
            yield _on_branch(row)


def _on_bundle(work: SheetWork, cables: list[LoomCableRow]) -> Iterator[str]:
    unit, car = work.plan.ends
    leave, length = exit_mm(places_of(work)), 1000 * (work.plan.use.loom.length_m or 0)
    ties = " and at ".join(f"{leave + at:.0f} mm" for at in TIES_MM if leave + at <= length)
    names = ", ".join(row.cable for row in cables)
    yield (
        f"{names}: lay on the bundle with the edge of the jacket at {leave:.0f} mm, cores towards "
        f"the {unit.name}; the cables leave towards the {car.name}"
    )
    yield (
        f"strain relief: tie each cable, round its jacket and the bundle, at {ties}, never round a "
        "core; a pull at a cable never reaches a joint"
    )


def _on_branch(row: LoomCableRow) -> str:
    if row.edge_mm is None:
        return (
            f"{row.cable}: tie it by its jacket to the wires of {row.branch}, never round a core, "
            "so that a pull never reaches a joint"
        )
    ties = " and ".join(f"{row.edge_mm + at:.0f} mm" for at in TIES_MM)
    return (
        f"{row.cable}: lay it along {row.branch} from outside, with the edge of its jacket at "
        f"{shown(row.edge_mm, 0)} mm; tie it, round its jacket and the branch's wires, at {ties}. "
        f"Its cores turn round there and run out with the wires of {row.branch}"
    )


def joining_lines(work: SheetWork) -> Iterator[str]:
    """Yield the form of each kind of joint that there is, then the acts at one line, in order."""
    if any(row.joint and row.sleeve != WRAPPED for row in work.joints):
        yield _form(work)
        yield from _sleeve_lines(work)
    if any(not row.joint for row in work.joints):
        yield (
            f'"closed off by itself": the end is not stripped. Push a sleeve over its tip until '
            f"only {shown(EMPTY_MM)} mm of it are empty, heat it, and pinch the empty end flat "
            f"while it is hot. Every end on this sheet is closed so. {_NO_SOURCE}"
        )
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
    yield "colour for colour as the lists have it: car, loom and cable each have their own"
    yield (
        "now the joint list, from line 1 to its end; finish and tick one line before the next. "
        f"{_acts(work)}"
    )


def _acts(work: SheetWork) -> str:
    cut = any(row.doing == "cut" for row in work.wires)
    begin = (
        'At each line cut the loom\'s wire, between its two flags, at "Cut", unless the line '
        f"before has, and shorten the half that the line is about by {CUT_BACK_MM:.0f} mm: its tip "
        'then lies at "Tip". Ring it before anything is joined: from the cavity on its flag to the '
        "cut copper of its tip. Silent: the flags are wrong; stop, and find by the cavities "
        "which wire it is. At a joint"
        if cut
        else 'At a joint shorten the loom\'s wire so that its tip lies at "Tip";'
    )
    return (
        f'{begin} cut the core to "Core", from the edge of its jacket to its tip; bare '
        f"{BARE_MM:.0f} mm of both; sleeve on the core now, where its line says before; crimp; "
        f"pull with {JOINT_PULL_N:.0f} N, the weight of 4 kg: it stays; sleeve over the joint, "
        "and heat it"
    )


def _form(work: SheetWork) -> str:
    unit, car = (end.name for end in work.plan.ends)
    cut = any(row.doing == "cut" for row in work.wires)
    sides = [
        f"on the {unit}'s half the two come from opposite sides, and the core's copper lies beside "
        f"the last {BARE_MM:.0f} mm before the tip; on the {car}'s half both come from the same "
        "side, tip beside tip"
    ]
    sides = sides if cut else []
    if any(row.branch and row.joint for row in work.joints):
        sides.append("at a branch both come from the same side, tip beside tip")
    said = "; ".join(sides)
    return (
        f"a joint: both bare ends side by side over their whole {BARE_MM:.0f} mm, in one "
        "crimp barrel of the size that its line says; solder only where its line says so"
        f"{'. ' + said[0].upper() + said[1:] if said else ''}. {_NO_SOURCE}"
    )


def _sleeve_lines(work: SheetWork) -> Iterator[str]:
    """When each sleeve goes on: one on a core does not come back over a joint of two wires."""
    if any(row.sleeve_on == "before" for row in work.joints):
        yield (
            f'"before, on the core": slide its sleeve of {SLEEVE_MM:.0f} mm on the core, up to the '
            "jacket, before the crimp; afterwards back over the joint, with its middle on the "
            "barrel. Both its ends close on a wire"
        )
    if any(row.joint and row.sleeve_on == "after" for row in work.joints):
        yield (
            '"after, over the tip": both wires leave the barrel on the same side, its other end is '
            "free. After the crimp and the pull push the sleeve over the free tip, the barrel and "
            f"both wires until only {shown(EMPTY_MM)} mm of it are empty; heat it, and pinch the "
            "empty end flat while it is hot. None goes on before: one that waits on one wire does "
            "not pass the other"
        )
