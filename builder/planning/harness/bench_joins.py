"""How the cut wires of a loom are joined on the table: the form of a joint, then side by side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.harness.joint_places import (
    BARE_MM,
    CUT_BACK_MM,
    SLEEVE_MM,
    TIES_MM,
    Side,
    core_mm,
    exit_mm,
    jacket_off_mm,
    joint_place,
)
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import CLOSED_OFF, LoomWireRow


def strip_lines(rows: Sequence[LoomWireRow]) -> Iterator[str]:
    """Yield how much jacket comes off, where millimetres are known."""
    if cuts := places_of(rows):
        off = jacket_off_mm(cuts)
        yield f"take {off:.0f} mm of jacket off the loom's end of each cable, and no core with it"


def laying_lines(plan: LoomPlan, rows: Sequence[LoomWireRow]) -> Iterator[str]:
    """Yield where the cables are laid and tied before anything is joined."""
    unit, car = plan.ends
    cuts = places_of(rows)
    if not cuts:
        yield (
            "strain relief: tie each cable to the bundle by its jacket where it leaves, and again "
            "20 mm further on, never round a core"
        )
        return
    leave, length = exit_mm(cuts), 1000 * (plan.use.loom.length_m or 0)
    ties = " and at ".join(f"{leave + at:.0f} mm" for at in TIES_MM if leave + at <= length)
    yield (
        f"lay the cables on the bundle with the edge of each jacket at {leave:.0f} mm, cores "
        f"towards the {unit.name}; the cables leave towards the {car.name}"
    )
    yield (
        f"strain relief: tie each cable, round its jacket and the bundle, at {ties}, never round a "
        "core; a pull at a cable never reaches a joint"
    )


def places_of(rows: Sequence[LoomWireRow]) -> list[float]:
    """Return where wires are cut or joined beside [mm]."""
    return [row.joint_mm for row in rows if row.joint_mm is not None]


def joining_lines(plan: LoomPlan, rows: Sequence[LoomWireRow]) -> Iterator[str]:
    """Yield the acts at one wire, then a line for each side of each wire that is cut."""
    cut = [row for row in rows if row.doing == "cut"]
    if not cut:
        return
    yield (
        f"at each of the {len(cut)} wires that are cut, one after the other, in this order: slide "
        "a sleeve on each core that comes to it, up to its jacket; cut the wire at its millimetre; "
        f"shorten either side by {CUT_BACK_MM:.0f} mm; cut each core to its length; bare "
        f"{BARE_MM:.0f} mm of both; join; close off the side that is not used; then the next wire"
    )
    yield (
        "every joint has one form: both bare ends side by side over their whole "
        f"{BARE_MM:.0f} mm, in one crimp barrel open at both ends or soldered. On the "
        f"{plan.ends[0].name}'s side the two come from opposite sides, on the "
        f"{plan.ends[1].name}'s from the same. The sleeve of {SLEEVE_MM:.0f} mm with its "
        "middle on the barrel, heated; "
        "where one of its ends is empty, pinch that flat while it is hot"
    )
    yield (
        "an end that is closed off is not stripped: slide a sleeve half over it, heat it, and "
        "pinch "
        "its empty half flat while it is hot. These millimetres are common practice, no source"
    )
    for row in cut:
        yield from _sides(plan, row, places_of(rows))


def _sides(plan: LoomPlan, row: LoomWireRow, cuts: Sequence[float]) -> Iterator[str]:
    unit, car = plan.ends
    sides: tuple[tuple[Side, str, str], ...] = (
        ("unit", unit.name, row.unit_side),
        ("car", car.name, row.car_side),
    )
    for side, name, joined in sides:
        closed = joined == CLOSED_OFF
        what = "closed off by itself" if closed else f"join {joined}"
        at = "" if row.joint_mm is None else _at(row.joint_mm, side, cuts, closed=closed)
        yield f"{row.wire}, {name}'s side: {what}{at}"


def _at(cut_mm: float, side: Side, cuts: Sequence[float], *, closed: bool) -> str:
    place = joint_place(cut_mm, side)
    low, high = place.sleeve_mm
    core = "" if closed else f", core {core_mm(cuts, cut_mm, side):.0f} mm from its jacket"
    return (
        f". Cut at {cut_mm:.0f}, tip at {place.tip_mm:.0f} mm{core}, "
        f"sleeve from {low:.1f} to {high:.1f} mm"
    )
