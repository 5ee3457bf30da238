"""A wire of the car that a loom does not pass on.

What it catches
---------------
A cavity that the car uses and that neither passes through the loom nor is brought out for this job.
A supply, a ground, or a wire that the job wants: stop. Anything else that is lost (a microphone,
the keys on the wheel, a data wire, a speaker) has to be mended or accepted, and the finding says
what no longer works. So does a cavity of which nobody recorded whether anything is in it.

Why it matters in the bay
-------------------------
The radio works, the sound is there, and a week later the customer notices that nobody hears them
on the telephone.

Example
-------
Fails::

    # in the loom; the car has a microphone in cavity 9
    wires:
      - {through: [1, 2, 3, 4, 5, 6, 7, 8]}

Passes::

    wires:
      - {through: [1, 2, 3, 4, 5, 6, 7, 8, 9]}

How to mend it
--------------
Put the missing wire into the loom, or take another loom. When the customer can do without, accept
the finding with the reason.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_looms import loom_faults
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each wire that ends at a loom."""
    help = "put the wire into the loom, or take another loom"
    yield from loom_faults(pack, parts, "loom_cavity_dead", help, milder=Severity.FIX)
    help = "look what is in it: record the pin, or list the cavity as empty"
    yield from loom_faults(pack, parts, "loom_undescribed", help, milder=Severity.FIX)


RULE = rule("LOM114", Severity.STOP, Scope.JOB, check, partly=(Severity.FIX,))
