"""How cables are laid on a loom and its wires cut and joined: the acts; how each is done, the rules
say, and where, the joint list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.harness.contacts import one_ended
from builder.planning.harness.joint_list import WRAPPED
from builder.planning.harness.joint_places import BARE_MM, CUT_BACK_MM, exit_mm
from builder.planning.harness.marks import by_place, tie_places, ties_end_mm
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
        'those two cavities: shorten each, so that its tip lies at "Tip" of the joint list, '
        f"some {CUT_BACK_MM:.0f} mm from the cut. Else a flag was on a wrong wire, and this one is "
        'cut: the loom anew, as told under "A line that fails"'
    )


def laying_lines(work: SheetWork) -> Iterator[str]:
    """Yield where the cables are laid and tied before anything is joined."""
    for branch, rows in by_place(work.cables).items():
        if branch:
            yield _on_branch(branch, rows)
        elif places_of(work):
            yield _on_bundle(work, rows)
        else:
            yield (
                "strain relief: tie each cable to the bundle by its jacket where it leaves, and "
                "again 20 mm further on, never round a core that is joined"
            )


def _on_bundle(work: SheetWork, rows: Sequence[LoomCableRow]) -> str:
    unit, car = (end.name for end in work.plan.ends)
    edge = exit_mm(places_of(work))
    return (
        f"{_laid(rows)} on the bundle, the edge of its jacket at {edge:.0f} mm, its cores towards "
        f"the {unit}, the cable towards the {car}, all on the upper side, away from the latches; "
        f"{_tied(rows, edge, 'the bundle')}{_room(work, rows, edge)}. No tie goes round a core "
        f"that is joined: so a pull at a cable never reaches a joint{_single(rows)}"
    )


def _laid(rows: Sequence[LoomCableRow]) -> str:
    names = ", ".join(row.cable for row in rows)
    return f"{names}{', one after the other' if len(rows) > 1 else ''}: lay it"


def _tied(rows: Sequence[LoomCableRow], edge: float, along: str) -> str:
    """Each cable by the millimetres at which its two ties begin."""
    found = [
        f"{' with '.join(row.cable for row in group)} at "
        + " and ".join(f"{edge + at:.0f}" for at in places)
        for group, places in tie_places(rows)
    ]
    others = (
        ", and round all that lies there by then, side by side, heads away from each other"
        if len(rows) > 1
        else ""
    )
    if len(rows) == 1:
        found = [found[0].removeprefix(f"{rows[0].cable} at ")]
    begins = "where each tie begins" if len(rows) > 1 else "where the ties begin"
    return f"tie it round its jacket and {along}{others}, {begins}: {', '.join(found)} mm"


def _room(work: SheetWork, rows: Sequence[LoomCableRow], edge: float) -> str:
    """How much lies free between the last tie and the car's plug: there the cables turn off."""
    length, car = work.plan.use.loom.length_m, work.plan.ends[1].name
    last = edge + ties_end_mm(rows)
    room = "" if length is None else f", {1000 * length - last:.0f} mm before the {car}"
    each = "each cable" if len(rows) > 1 else "it"
    return (
        f". The last tie ends at {last:.0f} mm{room}: there lead {each} off sideways, clear of the "
        f"{car} and of what plugs into it"
    )


def _single(rows: Sequence[LoomCableRow]) -> str:
    if all(row.bands for row in rows):
        return ""
    return (
        ". A single wire has no jacket: its ties go round its insulation, and so much of it lies "
        "before them that its tip reaches its joint"
    )


def _on_branch(branch: str, rows: Sequence[LoomCableRow]) -> str:
    edge = rows[0].edge_mm
    if edge is None:
        names = ", ".join(row.cable for row in rows)
        return (
            f"{names}: tie it by its jacket to the wires of {branch}, never round a core "
            "that is joined, so that a pull never reaches a joint"
        )
    return (
        f"{_laid(rows)} along {branch} from outside, the edge of its jacket at "
        f"{shown(edge, 0)} mm; {_tied(rows, edge, f'the wires of {branch}')}. Its cores turn round "
        "there and run out with these wires"
    )


def joining_lines(work: SheetWork) -> Iterator[str]:
    """Yield the acts at one line of the joint list, in order."""
    cut = any(row.doing == "cut" for row in work.wires)
    tip = "" if cut else 'shorten the loom\'s wire so that its tip lies at "Tip"; '
    closed = (
        f". At a line that closes off {_rung_before(work)}close the loom's wire off, and nothing "
        "else"
        if work.closed
        else ""
    )
    clip = ", but as its rule says at one beside a whole wire" if _wrapped(work) else ""
    yield (
        "now the joint list, from line 1 to its end; finish and tick one line before the next. At "
        f'a joint {tip}cut the core to "Core", from the edge of its jacket to its tip; bare '
        f"{BARE_MM:.0f} mm of both{clip}; the sleeve on the core, where its line says before; "
        f"crimp; pull, {JOINT_PULL_N:.0f} N: it stays; the sleeve over the joint, and heat it"
        f"{closed}"
    )


def _rung_before(work: SheetWork) -> str:
    """A contact whose wire ends nowhere else is proved while its tip is still bare."""
    if not one_ended(work):
        return ""
    return "ring it from its cavity to its tip, leave that contact in for the ring-out, "


def _wrapped(work: SheetWork) -> bool:
    return any(row.sleeve == WRAPPED for row in work.joints)
