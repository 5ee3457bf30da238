"""A driven leg joined to ground.

What it catches
---------------
A leg of a bridged radio or of a floating amplifier output that reaches a ground terminal.

Why it matters in the bay
-------------------------
Both legs are driven. A grounded one is a short across the output stage, and it is gone in a
second.

Example
-------
Fails::

    negative leg of front left: to the ground of the converter

Passes::

    negative leg of front left: to the negative input of the converter

How to mend it
--------------
Take it off the ground; use an input whose two wires float.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.circuit import laws
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.circuit_places import place_in_job
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each floating leg that reaches a ground."""
    for breach in laws.legs_that_meet_ground(pack.circuit) if pack.circuit else ():
        leg, ground = breach.pieces
        yield Fault(
            place_in_job(parts, leg),
            f"{leg} is driven and reaches {ground}: that shorts the output",
            "part it from the ground",
        )


RULE = rule("CIR103", Severity.STOP, Scope.JOB, check, hazard=True)
