"""A loom that failed its ring-out, or had none.

What it catches
---------------
A loom whose ring-out failed: nothing may be planned with it. A loom of which no ring-out is
recorded is a note: it is rung out at the bench before a plug of the car is undone.

Why it matters in the bay
-------------------------
A loom is the one part that stands in every wire of the radio at once. One terminal in the next
cavity, and the first thing to find it is a fuse, or the radio.

Example
-------
Fails::

    ring_out: {by: alder-pit-audio, date: 2024-05-13, result: failed}

Passes::

    ring_out: {by: alder-pit-audio, date: 2024-05-14, result: passed}

How to mend it
--------------
Mend the loom, ring all of it out again, and write down who did, and when.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.parts import Loom
from builder.rules.rule import Scope, rule


def check(loom: Loom) -> Iterator[Fault]:
    """Yield a ring-out that failed, or that nobody made."""
    done = loom.ring_out
    if done is None:
        message = "nobody has rung this loom out"
        yield Fault((), message, "ring it out at the bench, before the car", severity=Severity.NOTE)
    elif done.result == "failed":
        message = f"the ring-out by {done.by} on {done.date} failed"
        yield Fault(("ring_out", "result"), message, "mend the loom and ring all of it out again")


RULE = rule(
    "LOM111", Severity.STOP, Scope.RECORD, check, kinds=("loom",), not_known=(Severity.NOTE,)
)
