"""What is laid out on the table before a loom is worked on, with quantities."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.bench_counts import (
    barrel_sizes,
    flag_count,
    sleeve_sizes,
    tie_count,
)
from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.contacts import lead_count, own_contacts, ring_contacts
from builder.planning.harness.joint_list import BESIDE, MEASURE, WRAPPED, barrel_said
from builder.planning.harness.joint_parts import area_mm2, barrels
from builder.planning.harness.joint_places import BARREL_MM, SLEEVE_MM
from builder.planning.harness.ring_method import LEAD_M
from builder.planning.harness.rows import LoomCableRow
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.ring_out import OPEN_LEAST_MOHM
from builder.planning.tables import COMMON_PRACTICE


def needs_lines(work: SheetWork) -> Iterator[str]:
    """Yield cables, sleeves, crimps, ties, labels, tools, and what the ring-out takes."""
    if work.plan.use.loom.made == "bench":
        yield from own_contacts(work)
        yield from (
            f"1 holder for a fuse of {row.fuse}: {row.wire}" for row in work.wires if row.fuse
        )
    mine, others = joined_wires(work.plan, work.index), other_cores(work.plan, work.index)
    yield from _cables(work.cables, [*mine, *others])
    if work.joints:
        yield from _sleeves(work, mine, others)
        yield from _barrels(work)
        yield (
            "spares: 1 sleeve and 1 barrel more of each size, for a joint that is made "
            "again, and 2 ties"
        )
        yield f"{tie_count(work)} cable ties; coloured tape for bands; cloth tape"
    flags = flag_count(work)
    labels = [3 if row.bands else 2 for row in work.cables]
    yield f"{2 + sum(labels)} labels: 2 for the plugs, {sum(labels)} for the cables" + (
        f"; {flags} flags for the wires that are cut" if flags else ""
    )
    yield from _tools(work)
    yield from ring_contacts(work)
    if leads := lead_count(work):
        yield (
            f"for the test leads {shown(2 * leads * LEAD_M, 1)} m of single wire that the crimps "
            f"of these contacts hold: {2 * leads} leads of {shown(LEAD_M)} m, 2 on each of {leads} "
            "contacts"
        )
    yield (
        "for the ring-out a meter that reads ohms to 0.01 Ω and up to at least "
        f"{shown(OPEN_LEAST_MOHM)} MΩ, and millivolts; a bench supply with a limit of volts and "
        "of amperes; 4 clips, and one that holds all "
        "points of the lines that must read open"
    )


def _tools(work: SheetWork) -> Iterator[str]:
    joints = any(row.joint for row in work.joints)
    pull = (
        f", a spring balance that reads {JOINT_PULL_N:.0f} N or a weight of 4 kg" if joints else ""
    )
    knife = ", a jacket knife" if any(row.bands for row in work.cables) else ""
    solder = any("solder" in row.barrel for row in work.joints)
    yield (
        f"a rule of a metre, side cutters{knife}, a stripper that nicks no strand, a crimp tool "
        f"for the barrels and one for the contacts{pull}, a hot-air gun, a continuity tester"
        f"{', a soldering iron' if solder else ''}"
    )


def _cables(cables: Sequence[LoomCableRow], cores: Sequence[CircuitWire]) -> Iterator[str]:
    """One line a material: how much of it in all, in how many pieces, of how much copper."""
    found: dict[str, list[float | None]] = defaultdict(list)
    for row in cables:
        found[row.material].append(row.length_m)
    for material, lengths in found.items():
        known = [each for each in lengths if each is not None]
        metres = f"{shown(sum(known), 1)} m" if len(known) == len(lengths) else "as measured"
        names = {row.cable for row in cables if row.material == material}
        areas = {area_mm2(core.size) for core in cores if core.piece in names}
        copper = ", ".join(f"{shown(area, 2)} mm²" for area in areas if area is not None)
        each = f", each core of {copper}" if copper else ""
        many = "s" if len(lengths) > 1 else ""
        yield f"{material}{each}: {metres}, in {len(lengths)} piece{many}"


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
    """One line a size: which lines of the joint list take it."""
    widths = {barrel_said(each): each.outside_mm for each in barrels(work.defaults)}
    for size, count in barrel_sizes(work).items():
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
        elif size in widths:
            yield (
                f"{count} crimp barrel{many}, bare, {BARREL_MM[0]:.0f} to {BARREL_MM[1]:.0f} mm "
                "long, never longer than what is bared, not wider than "
                f"{shown(widths[size])} mm, open at both ends and without a stop in the middle, "
                f"for {size} of copper, that of all wires of a joint together "
                "(this house's own choice)"
            )
        else:
            yield f"solder for {count} joint{many}: of the barrels {size.split(':')[0]}"
