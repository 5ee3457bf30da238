"""How cables are laid on a loom and its wires cut and joined: the acts; how each is done, the rules
say, and where, the joint list."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.harness.joint_places import BARE_MM, CUT_BACK_MM, TIES_MM, exit_mm
from builder.planning.harness.rows import LoomCableRow
from builder.planning.harness.sheet_work import SheetWork


def places_of(work: SheetWork) -> list[float]:
    """Return where wires are cut or joined beside [mm]."""
    return [row.joint_mm for row in work.wires if row.joint_mm is not None]


def cutting_lines(work: SheetWork) -> Iterator[str]:
    """Yield how wires are cut: one at a time, and rung while all others are whole.

    A flag on the wrong wire is found at its first cut, before a core is cut to its length.
    """
    if not any(row.doing == "cut" for row in work.wires):
        return
    yield (
        "cut one wire at a time, from the top of the wire list, between its two flags at its "
        'millimetre under "At"; before the next is cut ring both of its halves, each from the '
        "cavity that its own flag names to the cut copper. Both sound, and the wire list joins "
        f"those two cavities: shorten each by {CUT_BACK_MM:.0f} mm; its tip "
        'then lies at "Tip" of the joint list'
    )


def laying_lines(work: SheetWork) -> Iterator[str]:
    """Yield where the cables are laid and tied before anything is joined."""
    on_bundle = [row for row in work.cables if not row.branch]
    if on_bundle and places_of(work):
        yield _on_bundle(work, on_bundle)
    elif on_bundle:
        yield (
            "strain relief: tie each cable to the bundle by its jacket where it leaves, and again "
            "20 mm further on, never round a core that is joined"
        )
    for row in work.cables:
        if row.branch:
            yield _on_branch(row)


def _on_bundle(work: SheetWork, cables: list[LoomCableRow]) -> str:
    unit, car = work.plan.ends
    leave, length = exit_mm(places_of(work)), 1000 * (work.plan.use.loom.length_m or 0)
    ties = " and at ".join(f"{leave + at:.0f} mm" for at in TIES_MM if leave + at <= length)
    names = ", ".join(row.cable for row in cables)
    said = (
        f"{names}, one after the other: lay it on the bundle with the edge of its jacket at "
        f"{leave:.0f} mm, its cores towards the {unit.name}, the cable towards the {car.name}, and "
        f"tie it at {ties}"
        if len(cables) > 1
        else f"{names}: lay it on the bundle with the edge of its jacket at {leave:.0f} mm, its "
        f"cores towards the {unit.name}, the cable towards the {car.name}, and tie it at {ties}"
    )
    beside = (
        f"; the ties of the next go beside these, towards the {car.name}, and round all that lies "
        "there by then"
        if len(cables) > 1
        else ""
    )
    return (
        f"{said}, round its jacket and the bundle{beside}; all on the upper side, away from the "
        f"latches. Behind its last tie lead it off sideways, clear of the {car.name} and of what "
        "plugs into it. No tie goes round a core that is joined: so a pull at a cable never "
        "reaches a joint"
    )


def _on_branch(row: LoomCableRow) -> str:
    if row.edge_mm is None:
        return (
            f"{row.cable}: tie it by its jacket to the wires of {row.branch}, never round a core "
            "that is joined, so that a pull never reaches a joint"
        )
    ties = " and ".join(f"{row.edge_mm + at:.0f} mm" for at in TIES_MM)
    return (
        f"{row.cable}: lay it along {row.branch} from outside, with the edge of its jacket at "
        f"{shown(row.edge_mm, 0)} mm; tie it, round its jacket and the branch's wires, at {ties}. "
        f"Its cores turn round there and run out with the wires of {row.branch}"
    )


def joining_lines(work: SheetWork) -> Iterator[str]:
    """Yield the acts at one line of the joint list, in order."""
    cut = any(row.doing == "cut" for row in work.wires)
    tip = "" if cut else 'shorten the loom\'s wire so that its tip lies at "Tip"; '
    closed = (
        ". At a line that closes off, close the loom's wire off, and nothing else"
        if work.closed
        else ""
    )
    yield (
        "now the joint list, from line 1 to its end; finish and tick one line before the next. At "
        f'a joint {tip}cut the core to "Core", from the edge of its jacket to its tip; bare '
        f"{BARE_MM:.0f} mm of both; the sleeve on the core, where its line says before; crimp; "
        f"pull, {JOINT_PULL_N:.0f} N: it stays; the sleeve over the joint, and heat it{closed}"
    )
