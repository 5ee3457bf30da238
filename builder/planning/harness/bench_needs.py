"""What is laid out on the table before a loom is worked on, with quantities."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import ceil

from builder.figures import at_least, shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.circuit.model import CircuitWire, Element
from builder.planning.harness.bench_counts import (
    BAND_M,
    MARKED_AT,
    SPARE_JOINTS,
    alike_cables,
    barrel_sizes,
    cloth_m,
    flag_count,
    sleeve_sizes,
    spare_ties,
    tie_count,
)
from builder.planning.harness.cables_of import joined_wires, other_cores, roll_spare_m
from builder.planning.harness.contacts import own_contacts, ring_contacts
from builder.planning.harness.joint_list import BESIDE, MEASURE, WRAPPED, barrel_said
from builder.planning.harness.joint_parts import area_mm2, barrels
from builder.planning.harness.joint_places import BARREL_MM, FLAG_MM, SLEEVE_MM
from builder.planning.harness.made_here import made_needs, own_joints
from builder.planning.harness.marks import BAND_MM, FLAG_LONG_MM, LABEL_MM, TAPE_MM, TIE_MM
from builder.planning.harness.ring_method import lead_needs
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.tables import COMMON_PRACTICE
from builder.planning.views.names import element_words


def needs_lines(work: SheetWork) -> Iterator[str]:
    """Yield cables, sleeves, crimps, ties, labels, tools, and what the ring-out takes."""
    if work.plan.use.loom.made == "bench":
        yield from made_needs(work)
        yield from own_contacts(work)
    else:
        yield f"the loom itself: 1 {work.plan.use.loom.id}, as bought"
        yield from (
            f"1 holder for a fuse of {row.fuse}: {row.wire}" for row in work.wires if row.fuse
        )
    yield from (f"1 {element_words(part)}, with leads" for part in _tapped_in(work))
    mine, others = joined_wires(work.plan, work.index), other_cores(work.plan, work.index)
    yield from _cables(work, [*mine, *others])
    if work.joints:
        yield from _sleeves(work, mine, others)
        yield from _barrels(work)
        yield (
            f"to spare: {SPARE_JOINTS} sleeves and {SPARE_JOINTS} barrels more of each size and "
            f"{spare_ties(work)} ties, for {SPARE_JOINTS} joints made anew (for more get more "
            f"first){_spare_marks(work)}"
        )
    yield from _marks(work)
    yield from _tools(work)
    yield from ring_contacts(work)
    yield from lead_needs(work)


def _spare_marks(work: SheetWork) -> str:
    """What marks take that were exchanged, at all three places of each cable."""
    rows = alike_cables(work)
    metres = at_least(MARKED_AT * BAND_M * sum(row.bands for row in rows), "m")
    return f"; {MARKED_AT * len(rows)} labels and {metres} m of coloured tape" if rows else ""


def _tapped_in(work: SheetWork) -> list[Element]:
    """The fuses that this job puts into the loom; its own are told with its wires."""
    fuses = [each for each in work.index.circuit.elements if each.kind == "fuse"]
    return [each for each in fuses if each.place == work.plan.use.name and not each.loom]


def _marks(work: SheetWork) -> Iterator[str]:
    """Ties, tapes, labels and flags, and what they are written with."""
    flags, bands = flag_count(work), MARKED_AT * sum(row.bands for row in work.cables)
    ties, labels = tie_count(work), sum(MARKED_AT if row.bands else 2 for row in work.cables)
    tapes = [
        f"{ties} cable ties, at most {shown(TIE_MM)} mm wide" if ties else "",
        f"coloured tape for {bands} bands, {shown(BAND_MM[0])} mm wide and {shown(BAND_MM[1])} mm "
        f"apart, {shown(bands * BAND_M, 1)} m"
        if bands
        else "",
        f"about {cloth_m(work)} m of cloth tape, {shown(TAPE_MM)} mm wide",
    ]
    yield "; ".join(each for each in tapes if each)
    wide, long = (shown(each) for each in LABEL_MM)
    plugs = f"{2 + labels} labels, {wide} mm wide and {long} mm long: 2 for the plugs"
    cables = f", {labels} for the cables" if labels else ""
    strip = f"{shown(FLAG_MM[0])} mm wide and {shown(FLAG_LONG_MM)} mm long"
    strips = f"; {flags} flag{'' if flags == 1 else 's'} for wires, {strip}" if flags else ""
    yield f"{plugs}{cables}{strips}; a pen that does not wipe off"


def _tools(work: SheetWork) -> Iterator[str]:
    joints = any(row.joint for row in work.joints)
    pull = (
        f", two flat pliers that lock, a spring balance that reads {JOINT_PULL_N:.0f} N"
        if joints
        else ""
    )
    knife = ", a jacket knife" if any(row.bands for row in work.cables) else ""
    solder = any("solder" in row.barrel for row in work.joints)
    longest = max((row.length_m or 0 for row in work.cables), default=0)
    measure = f"a tape measure of {ceil(longest)} m" if longest > 1 else ""
    screws = ", a screwdriver for the bar" if work.bundle else ""
    out = ", the tool that takes a contact out" if work.plan.use.loom.made == "bench" else ""
    yield (
        f"a rule of a metre{f', {measure}' if measure else ''}, side cutters{knife}, a stripper "
        f"that nicks no strand, a crimp tool for the barrels and one for the contacts{out}{pull}, "
        "a hot-air gun, a piece of sheet metal to hold between it and what lies beside, a "
        f"continuity tester{', a soldering iron' if solder else ''}{screws}"
    )


def _cables(work: SheetWork, cores: Sequence[CircuitWire]) -> Iterator[str]:
    """One line a material: how much of it in all, in how many pieces, of how much copper."""
    found: dict[str, list[float | None]] = defaultdict(list)
    for row in work.cables:
        found[row.material].append(row.length_m)
    for material, lengths in found.items():
        known = [each for each in lengths if each is not None]
        metres = f"{shown(sum(known), 1)} m" if len(known) == len(lengths) else "as measured"
        names = {row.cable for row in work.cables if row.material == material}
        areas = {area_mm2(core.size) for core in cores if core.piece in names}
        copper = ", ".join(f"{shown(area, 2)} mm²" for area in areas if area is not None)
        each = f", each core of {copper}" if copper else ""
        many = "s" if len(lengths) > 1 else ""
        yield f"{material}{each}: {metres}, in {len(lengths)} piece{many}{_more(work, material)}"


def _more(work: SheetWork, material: str) -> str:
    more = roll_spare_m(work.cables, material, work.defaults)
    return f"; {shown(more, 1)} m more on the roll, for an end cut off" if more else ""


def _sleeves(
    work: SheetWork, mine: Sequence[CircuitWire], others: Sequence[CircuitWire]
) -> Iterator[str]:
    """One line a size; a core's end that is closed off takes a sleeve for one wire."""
    sizes = sleeve_sizes(work)
    said = "; ".join(
        f"{count} of {_bore(size)}" for size, count in sorted(sizes.items(), key=_by_bore)
    )
    counts = (
        (len(work.joints) - work.closed - _wraps(work), "joint", "s"),
        (work.closed, "end", "s of the loom's wires"),
        (len(others), "other core", "s at the loom's end"),
        (len(mine) + len(others), "far end", "s after the ring-out"),
        (len([*own_joints(work)]), "joint", "s of the loom's own"),
    )
    uses = ", ".join(
        f"{count} {what}{more if count > 1 else more[1:]}" for count, what, more in counts if count
    )
    yield (
        f"{sizes.total()} adhesive sleeves, {SLEEVE_MM:.0f} mm long: {said}; the bore as bought / "
        f"after heating. They are for {uses}. Bores: "
        f"{COMMON_PRACTICE}; what they close on: ISO 6722-1, from memory"
    )


def _wraps(work: SheetWork) -> int:
    return sum(row.sleeve == WRAPPED for row in work.joints)


def _bore(size: str) -> str:
    if size != MEASURE:
        return size
    return "a bore that passes the joint and closes on its thinnest wire (a size is not on record)"


def _by_bore(item: tuple[str, int]) -> tuple[bool, float]:
    first = item[0].split()[0]
    return item[0] == MEASURE, float(first) if first.replace(".", "").isdigit() else 0.0


def _barrels(work: SheetWork) -> Iterator[str]:
    """What joints are made with: barrels with a width, by the copper that they hold; the rest."""
    widths = {barrel_said(each): each.outside_mm for each in barrels(work.defaults)}
    sizes = barrel_sizes(work)
    held = [
        f"{count} crimp barrel{'' if count == 1 else 's'} for {size} of copper, not wider than "
        f"{shown(widths[size])} mm"
        for size, count in sizes.items()
        if size in widths
    ]
    if held:
        yield (
            f"{'; '.join(held)}: bare, {BARREL_MM:.0f} mm long, never longer "
            "than what is bared, open at both ends and without a stop in the middle; the "
            "copper is that of all wires of a joint together (this house's own choice)"
        )
    for size, count in sizes.items():
        many = "" if count == 1 else "s"
        if size == BESIDE:
            yield (
                f"{count} open crimp clip{many} for joints beside a whole wire; "
                "self-sealing tape to wrap them"
            )
        elif size == MEASURE:
            yield (
                f"{count} crimp barrel{many} for a joint with a lead of no recorded size: measure, "
                "the copper of both together"
            )
        elif size not in widths:
            yield f"solder for {count} joint{many}: of the barrels {size.split(':')[0]}"
