"""A fed wire that no fuse protects.

What it catches
---------------
A supply or turn-on wire with no fuse before it, or with one larger than its conductor stands
(house defaults). The lead to the main fuse is another rule's. A wire behind an output that
limits itself, as a turn-on output does, needs none.

Why it matters in the bay
-------------------------
The car's own fuse at that position feeds the radio too: 15 A set a thin wire on fire before it
opens.

Example
-------
Fails::

    turn-on from the radio's accessory wire, 22 AWG, straight to the converter

Passes::

    turn-on from the radio's accessory wire through a 1 A fuse at the tap

How to mend it
--------------
Put a fuse at the source, at most as large as the thinnest wire behind it stands.

Source
------
Common practice, no source; the largest fuse of each size is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.planning.circuit import laws
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.circuit_places import place_in_job
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each fed wire that no fuse small enough stands before."""
    defaults = parts.shelf.defaults
    for breach in laws.unfused_wires(pack.circuit, defaults) if pack.circuit else ():
        (wire,) = breach.pieces
        fuse = "no fuse" if breach.value is None else f"a fuse of {shown(breach.value)} A"
        most = shown(breach.limit, beside=breach.value or ())
        yield Fault(
            place_in_job(parts, wire),
            f"{wire} has {fuse} before it and stands {most} A: in a short it burns",
            f"put a fuse of at most {most} A at its source",
        )


RULE = rule("CIR104", Severity.STOP, Scope.JOB, check, hazard=True)
