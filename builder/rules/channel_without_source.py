"""An amplifier channel that nothing feeds.

What it catches
---------------
A channel of an amplifier that drives a speaker and whose line input no output, Y-lead or switch
of the amplifier feeds.

Why it matters in the bay
-------------------------
The speaker stays silent, and the fault is looked for in the amplifier.

Example
-------
Fails::

    speakers: [{name: rear left, driven_by: {amplifier: amp, channel: 3}, from: []}]

Passes::

    speakers: [{name: rear left, driven_by: {amplifier: amp, channel: 3}, from: [rear-left]}]

How to mend it
--------------
Give it an output of the converter, a Y-lead, or a switch of the amplifier that copies another
input.

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
    """Yield each output in use whose channel nothing feeds."""
    for breach in laws.unfed_channels(pack.circuit) if pack.circuit else ():
        (terminal,) = breach.pieces
        yield Fault(
            place_in_job(parts, terminal),
            f"{terminal.removesuffix(' +')} drives a speaker and nothing feeds its channel",
            "feed it: an output of its own, a Y-lead or a switch of the amplifier",
        )


RULE = rule("CIR105", Severity.STOP, Scope.JOB, check)
