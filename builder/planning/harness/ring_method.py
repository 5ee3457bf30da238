"""How a loom is rung out: test leads, zero, currents, the bar, what open means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import at_least, at_most, shown
from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.contacts import (
    by_plug,
    lead_counts,
    off_plugs,
    one_ended,
    zero_sizes,
)
from builder.planning.harness.core_ohms import least_ohm_per_m, most_ohm_per_m
from builder.planning.harness.rows import LoomJointRow, RingOutRow
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.ring_out import (
    OPEN_LEAST_MOHM,
    SPEAKER_MOST_MV,
    SUPPLY_MOST_MV,
    SUPPLY_MOST_V,
    TEST_CURRENT_A,
)

LEAD_M = 0.5
LEAD_MM2 = (0.5, 1.0)
FAR_BARE_MM = 15
"""A test lead: how long; the copper of one, and of two in one crimp; what is bared of its free end
and of a core for the ring-out: a screw and a clip, or two clips, find room. Common practice, no
source."""


def lead_lines(work: SheetWork) -> Iterator[str]:
    """Yield how the test leads are made, first of all: finding the wires takes them already."""
    if not work.ringing:
        return
    yield (
        f'make the test leads: into each contact that "You need" names for a plug crimp one or two '
        f"wires of {shown(LEAD_M)} m, as it says there, and bare {FAR_BARE_MM} mm of their free "
        "ends. A cavity is touched from its open face with such a contact of its size, never with "
        "a probe pushed in; nothing bites through insulation"
    )


def lead_needs(work: SheetWork) -> Iterator[str]:
    """Yield the wire of the test leads, and what every point of the open lines hangs on."""
    single, double = lead_counts(work)
    one, two = LEAD_MM2
    if single + double:
        yield (
            f"for the test leads {shown((single + 2 * double) * LEAD_M, 1)} m of single wire of "
            f"{shown(one)} mm², and 1 m to spare: {single} contacts with one lead of "
            f"{shown(LEAD_M)} m, {double} with two. Order these contacts, and one more of each, "
            f"for {shown(one)} to {shown(two)} mm² of copper (common practice, no source)"
        )
    meter = "a meter that reads ohms to 0.01 Ω and up to at least "
    bar = (
        f", a bar of {len(work.bundle) + 1} screw terminals that are all joined, in one of them a "
        "stub of wire for the meter's clip"
        if work.bundle
        else ""
    )
    yield (
        f"for the ring-out {meter}{shown(OPEN_LEAST_MOHM)} MΩ, and millivolts; a bench supply "
        "whose volts and amperes can be limited; 4 small clips, their jaws at most 5 mm wide, on "
        "the leads of both"
        f"{bar}"
    )


def begin_lines(work: SheetWork, *, fused: bool) -> Iterator[str]:
    """Yield what is done before the first line and with the lines; `fused`: a fuse lies in it."""
    others = other_cores(work.plan, work.index)
    too = ", and of the cores that are joined to nothing here at the loom's end" if others else ""
    if work.cables:
        yield (
            f"for the ring-out bare {FAR_BARE_MM} mm of every core at the far end of each cable"
            f"{too}; bring each far end back to the plugs, and bend its bare ends apart: none "
            "touches another"
        )
    if fused:
        yield (
            "into every fuse holder a short link of bare wire in the place of its fuse, for the "
            "ring-out alone: a small fuse has more ohms than the wire. After the last line they "
            "come out again"
        )
    yield (
        "now the ring-out, from line 1 to its end, as told over its table: write down what you "
        "read. Nothing of the car comes apart before all lines have passed"
    )
    if work.cables:
        yield (
            "all lines passed: all contacts out; shorten each end that was bared for the ring-out "
            f"to its insulation, and close it off by itself, until the car: {_ends_closed(work)}"
        )


def _ends_closed(work: SheetWork) -> str:
    others = len(other_cores(work.plan, work.index))
    far = len(joined_wires(work.plan, work.index)) + others
    return f"{far} at the far ends" + (f", {others} at the loom's end" if others else "")


def measuring_lines(work: SheetWork) -> Iterator[str]:
    """Yield how each kind of line is measured, in the order of the lines."""
    yield from _millivolts(work.ringing)
    yield from _ohms(work)
    yield from _apart(work)
    yield from _loaded(work)


def _millivolts(rows: Sequence[RingOutRow]) -> Iterator[str]:
    if any(row.at_a is not None for row in rows):
        yield (
            "lines on mV (millivolts): a contact with two leads, moved from line to line; the "
            f"bench supply, set to {shown(TEST_CURRENT_A)} A and at most {shown(SUPPLY_MOST_V)} V, "
            "by one of its leads, the meter, on direct millivolts, by the other. A bare end has "
            "two clips that do not touch: that of the meter nearer to the cable. So no lead is "
            f"measured. A line is read only while the supply shows {shown(TEST_CURRENT_A)} A. With "
            "less, or too few mV (0 always are), look at clips, leads, contacts and meter; still "
            "so: the line fails. After these lines the supply is off and unclipped"
        )


def _ohms(work: SheetWork) -> Iterator[str]:
    ohms = [row for row in work.ringing if row.joined and row.unit == "Ω"]
    if not ohms:
        return
    sizes = [f"contacts of {shown(each)} mm" for each in zero_sizes(work)]
    bare = ["two clips on each other"] if any("end of" in row.probe for row in ohms) else []
    zeros = "; ".join(f"{each} ______ Ω" for each in (*sizes, *bare))
    stayed = ", beside what stayed in" if one_ended(work) else ""
    yield (
        f"lines on ohms: only the two contacts, or clips, of the line are in{stayed}. First the "
        "zero: hold "
        "the metal of the two together, with the leads that will be used, write down what the "
        f"meter reads, and take it off each reading of that kind: {zeros}"
    )


def _apart(work: SheetWork) -> Iterator[str]:
    """What hangs on the bar is what the lines' points are: from one map."""
    if not work.bundle:
        return
    bare = off_plugs(work)
    plugs = len(work.bundle) - len(bare)
    also = f"; as well, under a screw each: {', '.join(bare)}" if bare else ""
    free = ". Every other bare end stays free and touches nothing" if work.cables else ""
    held, far = "; ".join(by_plug(work, work.bundle)), " or far end" if work.cables else ""
    two = " (there a contact with two leads)"
    yield (
        f"lines that must read open: now all {plugs} contacts with one lead are in ({held}). Pull "
        f"lightly at each: it stays; ring its lead to its other cavity{two}{far}: it sounds"
        f"{_rung_already(work)}; then under a screw of the bar{also}{free}. At each line the "
        "meter, on its highest ohms, goes on the stub of the bar and on the point: near 0 Ω on the "
        f"bar; off it, open: at least {shown(OPEN_LEAST_MOHM)} MΩ, or over range; on it again, "
        "near 0 Ω, and it holds a light pull (else this line anew). "
        f"{_spared(work.ringing, work.bundle)}Last, pull at each contact again: one loose, these "
        "lines anew"
    )


def _rung_already(work: SheetWork) -> str:
    """What has no other end any more, and when it was rung instead."""
    alone = "; ".join(by_plug(work, one_ended(work)))
    return f" ({alone}, sounded before closing)" if alone else ""


def _loaded(work: SheetWork) -> Iterator[str]:
    """What a load in the loom makes of the open lines of the two points that it lies between."""
    for part in work.index.circuit.elements:
        if part.kind == "resistor" and part.place == work.plan.use.name:
            ends = {each.id for end in part.ends for each in work.index.joints_of.get(end, [])}
            points = [_point(row) for row in work.joints if row.joint in ends]
            yield (
                f"a load lies between {' and '.join(points)}: {part.rating}. At the line of either "
                "take both off the bar; between the two the meter reads its ohms, a tenth more or "
                "less"
            )


def _point(row: LoomJointRow) -> str:
    """The cavity at the half of a wire that a joint is made on."""
    spots = row.wire.split(" to ")
    return next((x for x in spots if row.side.startswith(x.rpartition(".")[0])), row.wire)


def why_lines(work: SheetWork) -> Iterator[str]:
    """Yield why limits differ, and which figures have no source."""
    rows = work.ringing
    if any(row.joined for row in rows):
        yield (
            f"why the limits differ: a speaker wire may drop {shown(SPEAKER_MOST_MV)} mV"
            f"{_fused_words(rows)}, what carries a signal or switches has ohms; a line over a "
            f"cable adds the most that a good one takes{_a_metre(work)}, cut as long as it may be"
            f"{_least_a_metre(work)}. Limits, test current, its {shown(SUPPLY_MOST_V)} V and "
            f"{shown(OPEN_LEAST_MOHM)} MΩ: common practice, no source"
        )


def _a_metre(work: SheetWork) -> str:
    """What a metre of each core takes, so that a limit can be reckoned again."""
    cores = (*joined_wires(work.plan, work.index), *other_cores(work.plan, work.index))
    found = {most_ohm_per_m(core, work.defaults) for core in cores}
    said = [at_most(1000 * each, "mΩ") for each in sorted(x for x in found if x is not None)]
    return f", {' or '.join(said)} mΩ a metre" if said else ""


def _least_a_metre(work: SheetWork) -> str:
    """The same of its least, where lines have one."""
    if not any(row.least for row in work.ringing):
        return ""
    found = {least_ohm_per_m(core, work.defaults) for core in joined_wires(work.plan, work.index)}
    said = [at_least(1000 * each, "mΩ") for each in sorted(x for x in found if x is not None)]
    return f"; least: {' or '.join(said)} mΩ a metre, cut short"


def _fused_words(rows: Sequence[RingOutRow]) -> str:
    """How a supply gets its limit, where there is one; a ground by the fuse of what it returns."""
    own = {
        round(row.most - (row.of_cable or 0.0), 2)
        for row in rows
        if row.at_a is not None and row.most is not None
    }
    if not own - {SPEAKER_MOST_MV}:
        return ""
    return (
        f", a supply or its ground {shown(SUPPLY_MOST_MV)} mV divided by the amperes of the fuse "
        "it lies behind"
    )


def _spared(rows: Sequence[RingOutRow], bundle: Sequence[str]) -> str:
    """The one point without a line of its own: all others were held against it, so that it has to
    hang on the bar as surely as they."""
    held = {row.probe for row in rows if not row.joined}
    spared = [point for point in bundle if point not in held]
    if len(spared) != 1:
        return ""
    return (
        f"{spared[0]} needs no line: near 0 Ω on the bar and that pull, before the first open line "
        "and after the last, else all of them anew. "
    )
