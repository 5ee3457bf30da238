"""A line lead that no channel hears.

What it catches
---------------
A line lead of the job that ends at an input which no channel in use listens to: its channel drives
no speaker, or a switch of the amplifier gives that channel other inputs. Also a lead from an output
that plays nothing.

Why it matters in the bay
-------------------------
It is bought and plugged in for nothing, and whoever looks for a fault later takes it for the way
of the sound.

Example
-------
Fails::

    switches: [{group: inputs 3/4, does: copies, of: [inputs 1/2]}]
    line_leads: [{output: 1, to: [{amplifier: amp, input: 1}, {amplifier: amp, input: 3}]}]

Passes::

    switches: [{group: inputs 3/4, does: copies, of: [inputs 1/2]}]
    line_leads: [{output: 1, to: [{amplifier: amp, input: 1}]}]

How to mend it
--------------
Leave the lead out, or set the switch so that it is heard.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.circuit.terminal_names import line_input
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each end of a lead that the finished circuit does without."""
    if pack.circuit is None:
        return
    led = {link.finishes for link in pack.circuit.links if link.carries == "line"}
    for lead in parts.job.line_leads:
        for at, end in enumerate(lead.to):
            if line_input(end.amplifier, end.socket) not in led:
                yield Fault(
                    (*lead.path, "to", at),
                    f"no channel in use hears {end.amplifier} {end.socket.words}",
                    "leave the lead out, or set the switch so that it is heard",
                )


RULE = rule("CIR108", Severity.NOTE, Scope.JOB, check)
