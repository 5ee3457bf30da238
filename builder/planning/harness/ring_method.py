"""How a loom is rung out: zero, currents, contacts, what open means."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.harness.rows import RingOutRow
from builder.planning.looms.ring_out import OPEN_LEAST_MOHM, SUPPLY_MOST_V, TEST_CURRENT_A


def method_lines(
    rows: Sequence[RingOutRow], bundle: Sequence[str], *, fused: bool
) -> Iterator[str]:
    """Yield how each kind of line is measured, and why one point has no line; `fused`: a fuse lies
    in the loom."""
    yield (
        "how to touch: a cavity from its open face with a contact of the mating size on two leads, "
        "never a probe pushed in. Of a cable take 50 mm of jacket off at its far end, bare 5 mm of "
        "every conductor, and bend the bare ends apart: no two touch during the whole ring-out"
    )
    if fused:
        yield (
            "into every fuse holder a short link of bare wire in the place of its fuse, for the "
            "ring-out alone: a small fuse has more ohms than the wire. After the last line they "
            "come out again"
        )
    yield (
        "ring-out, ohms: meter on ohms; join two contacts with the very leads that will be used, "
        "write what the meter reads, zero ______ Ω, and take it off every reading"
    )
    yield (
        f"ring-out, millivolts: meter on direct millivolts; a bench supply set to "
        f"{shown(TEST_CURRENT_A)} A and at most {shown(SUPPLY_MOST_V)} V, by one lead of each "
        "contact; read the volts by the other lead. "
        "A bare end has two clips: that of the meter nearer to the cable. So no lead is measured. "
        "100 mV at 1 A are 0.1 Ω"
    )
    yield (
        "ring-out, apart: clip the free leads of all contacts and all bare ends of the bundle "
        "together, take out the one that is measured, and hold the meter, on its highest ohms, "
        "between it and the clip: it must read "
        f"open, at least {shown(OPEN_LEAST_MOHM)} MΩ (common practice, no source, as the volts "
        "of the supply); put it back before the next" + _spared(rows, bundle)
    )
    yield "now the ring-out, from line 1 to its end: write down what you read"
    yield (
        "a line that fails: mend it, then begin at line 1 again. Nothing of the car comes apart "
        "before all have passed"
    )
    yield "all lines passed: close each far end by itself under a sleeve, until the car"


def _spared(rows: Sequence[RingOutRow], bundle: Sequence[str]) -> str:
    """The one point without a line of its own."""
    held = {row.probe for row in rows if not row.joined}
    spared = [point for point in bundle if point not in held]
    if len(spared) != 1:
        return ""
    return f". {spared[0]} needs no line: every other was held against it"
