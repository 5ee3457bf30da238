"""A terminal that must be joined and is not.

What it catches
---------------
A terminal of a converter, an amplifier or a new speaker that does its work only when something
is joined to it, and that no link of the job reaches.

Why it matters in the bay
-------------------------
The job is finished, the trim is home, and it stays silent: the amplifier was never switched on.

Example
-------
Fails::

    turn-on output of the converter: joined to nothing
    amplifiers: [{name: sub amp, part: mono-300}]

Passes::

    turn-on output of the converter: to the turn-on input of sub amp

How to mend it
--------------
Give the job what reaches it: a route for the wire, a cable with a conductor free, or an output
that feeds it.

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
    """Yield each terminal that is needed and that nothing reaches."""
    for breach in laws.unjoined_terminals(pack.circuit) if pack.circuit else ():
        (terminal,) = breach.pieces
        yield Fault(
            place_in_job(parts, terminal),
            f"{terminal} must be joined and nothing reaches it",
            "add the route, the cable or the output that reaches it",
        )


RULE = rule("CIR101", Severity.FIX, Scope.JOB, check)
