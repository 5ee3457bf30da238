"""Two outputs on one wire.

What it catches
---------------
Two outputs of sound or switching that are joined: two amplifiers on one speaker, the radio and
the new amplifier on one pair, two turn-on sources on one lead.

Why it matters in the bay
-------------------------
Each tries to hold the wire where it wants it. One of them burns, usually the dearer.

Example
-------
Fails::

    front left: radio end and amplifier both on the speaker's wire

Passes::

    front left: radio end to the converter, amplifier on the speaker end

How to mend it
--------------
Part them: each output has its own pair. Two turn-on sources go through diodes or a relay.

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
    """Yield each net that two outputs drive."""
    for breach in laws.nets_with_two_drivers(pack.circuit) if pack.circuit else ():
        yield Fault(
            place_in_job(parts, breach.pieces[0]),
            f"{' and '.join(breach.pieces)} drive one wire: one of them is destroyed",
            "part them, so that each wire has one output",
        )


RULE = rule("CIR102", Severity.STOP, Scope.JOB, check, hazard=True)
