"""How a loom is rung out: zero, currents, contacts, what open means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.harness.joint_places import BARE_MM
from builder.planning.harness.rows import RingOutRow
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.ring_out import OPEN_LEAST_MOHM, SUPPLY_MOST_V, TEST_CURRENT_A

LEAD_M = 0.5
"""How long a test lead is. Common practice, no source."""


def lead_lines(work: SheetWork) -> Iterator[str]:
    """Yield how the test leads are made, first of all: finding the wires takes them already."""
    if not work.ringing:
        return
    yield (
        f"make the test leads: crimp two single wires of {shown(LEAD_M)} m into each contact "
        'that stands under "You need" as one that goes into a plug, and bare their free ends. '
        "A cavity is touched from its open face with "
        "such a contact of its size, never with a probe pushed in; nothing bites through insulation"
    )


def method_lines(work: SheetWork, *, fused: bool) -> Iterator[str]:
    """Yield how each kind of line is measured, and why one point has no line; `fused`: a fuse lies
    in the loom."""
    yield (
        f"for the ring-out bare {BARE_MM:.0f} mm of every conductor at the far end of each cable, "
        "and bend the bare ends apart: they meet nowhere but in the clip of the lines that must "
        "read open"
    )
    if fused:
        yield (
            "into every fuse holder a short link of bare wire in the place of its fuse, for the "
            "ring-out alone: a small fuse has more ohms than the wire. After the last line they "
            "come out again"
        )
    yield from (*_joined(work.ringing), _apart(work.ringing, work.bundle))
    yield from (_now(), _fails(work), _passed())


def _joined(rows: Sequence[RingOutRow]) -> Iterator[str]:
    yield (
        "lines on ohms: the supply is switched off and unclipped, and only the two contacts of the "
        "line are in. Meter on ohms; first the zero, for each size of contact by itself: "
        "hold the metal of two of them together, with the leads that will be used, write what the "
        "meter reads, zero ______ Ω, ______ Ω, and take it off every reading of that size"
    )
    if any(row.at_a is not None for row in rows):
        yield (
            f"lines on millivolts: meter on direct millivolts; a bench supply set to "
            f"{shown(TEST_CURRENT_A)} A and at most {shown(SUPPLY_MOST_V)} V, by one lead of the "
            "contact; read the volts by its other lead. A bare end has two clips: that of the "
            "meter nearer to the cable. So no lead is measured. 100 mV at 1 A are 0.1 Ω. After "
            "these lines the supply is off"
        )
    yield (
        "why the limits differ: what carries a speaker or a supply has a limit for its drop, what "
        "carries a signal has ohms; a line over a cable adds what the copper of that cable takes "
        "over its length, and its two shares stand behind it"
    )


def _apart(rows: Sequence[RingOutRow], bundle: Sequence[str]) -> str:
    return (
        "lines that must read open: now all contacts are in, those of the points that stand over "
        "the ring-out. Clip one free lead of each and all bare far ends together; take "
        "out the one that is measured, and hold the meter, on its highest ohms, between it and the "
        f"clip: open is at least {shown(OPEN_LEAST_MOHM)} MΩ (common practice, no source, as the "
        "volts of the supply); put it back before the next" + _spared(rows, bundle)
    )


def _now() -> str:
    return "now the ring-out, from line 1 to its end: write down what you read"


def _fails(work: SheetWork) -> str:
    """How a joint is made again: what a cut takes of each wire, and where that comes from."""
    again = [
        "a line that fails: open the joints of its wire, look for a loose or a stray strand, and "
        "make the bad one again with a barrel and a sleeve of the spares"
    ]
    if any(row.sleeve_on == "after" and row.joint for row in work.joints):
        again.append(
            "two wires from the same side: cut both off behind the barrel; the new joint lies so "
            "much nearer to where they come from"
        )
    if any(row.sleeve_on == "before" for row in work.joints):
        again.append(
            f"from opposite sides: cut the barrel out, {BARE_MM:.0f} mm of either wire are gone, "
            f"so the core is {2 * BARE_MM:.0f} mm too short: take {2 * BARE_MM:.0f} mm more of its "
            "jacket off, and tie the jacket anew behind its edge"
        )
    again.append(
        "then begin at line 1 again. Nothing of the car comes apart before all have passed"
    )
    return ". ".join(each[0].upper() + each[1:] if at else each for at, each in enumerate(again))


def _passed() -> str:
    return (
        "all lines passed: all contacts out; shorten each far end to its insulation, and close it "
        "off by itself, as every end, until the car"
    )


def _spared(rows: Sequence[RingOutRow], bundle: Sequence[str]) -> str:
    """The one point without a line of its own."""
    held = {row.probe for row in rows if not row.joined}
    spared = [point for point in bundle if point not in held]
    if len(spared) != 1:
        return ""
    return f". {spared[0]} needs no line: every other was held against it"
