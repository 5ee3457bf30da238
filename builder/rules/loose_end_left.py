"""A spare core that nobody is told to insulate.

What it catches
---------------
A spare core of a cable that is missing from the list of ends to insulate.

Why it matters in the bay
-------------------------
It touches its neighbour behind the radio. On bridged outputs that is a dead output stage.

Example
-------
Fails::

    conductors: [{jacket: 2, place: single 1, purpose: spare}]
    insulate: []

Passes::

    conductors: [{jacket: 2, place: single 1, purpose: spare}]
    insulate: [{what: 'blue (single 1) of cable 2, radio end'}]

How to mend it
--------------
Insulate every spare by itself at both ends, never twisted together.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each spare core that the list of open ends leaves out."""
    listed = " | ".join(each.what for each in pack.insulate)
    for row in pack.conductors:
        if row.demand_class == "spare" and f"({row.place}) of {row.piece}," not in listed:
            yield Fault(
                ("cables",),
                f"{row.place} of {row.piece} ({row.wire}) is spare, and nobody is told to "
                "insulate it: loose ends short outputs",
                "insulate it by itself at both ends",
            )


RULE = rule("CAB105", Severity.FIX, Scope.JOB, check)
