"""A broken pair that no amplifier plays.

What it catches
---------------
A pair that the job cuts, and no speaker of the job that hangs on its wires or stands in for it.

Why it matters in the bay
-------------------------
The speaker stays silent, and the customer hears it before the trim is back on.

Example
-------
Fails::

    treatment: {front-left: intercept, rear-right: intercept}
    speakers:
      - {name: left door, channel: front-left, existing: yes, from: [front-left]}

Passes::

    treatment: {front-left: intercept, rear-right: none}
    speakers:
      - {name: left door, channel: front-left, existing: yes, from: [front-left]}

How to mend it
--------------
Give the pair an amplifier channel, or leave it to the car (`addon` or `none`).

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import broken_pairs, replaced, returned, treatment_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair that is cut and comes back from nowhere."""
    comes_back = returned(parts) | replaced(parts)
    for name in broken_pairs(parts):
        if name not in comes_back:
            yield Fault(
                treatment_path(parts.job, name),
                f"{name} is broken and no amplifier of the job plays its speaker: it falls silent",
                "add the speaker with its amplifier channel, or type addon or none",
            )


RULE = rule("TOP111", Severity.STOP, Scope.JOB, check)
