"""The idle current of the job is not that of its devices.

What it catches
---------------
`supply.idle_a`, which lies more than 30 % **(common practice, no source)** above or below what the
records of converter and amplifiers say together.

Why it matters in the bay
-------------------------
The hours with the engine off and the band of the idle current are both made of it. A figure that
was carried over from another job lets a device that never switched on pass as healthy.

Example
-------
Fails::

    supply: {idle_a: 1.2}     # an amplifier of 0.75 A and a converter of 0.04 A

Passes::

    supply: {idle_a: 0.9}

How to mend it
--------------
Read it again with everything on and the volume at 0, and put the figure into the record of the
device that draws otherwise; or leave the key out, then the records count.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.planning.power.idle_current import idle_limits_a, recorded_idle_a
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(_pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield the idle current of the job where it is another than that of the records."""
    said, supply = parts.job.supply.idle_a, parts.job.supply
    recorded = recorded_idle_a(parts.converter, parts.amplifiers.values())
    low, high = idle_limits_a(recorded)
    if not said or low <= said <= high:
        return
    yield Fault(
        (*supply.path, "idle_a"),
        f"the job says that everything added draws {shown(said, 2)} A with no sound, the records "
        f"of its devices say {shown(recorded, 2, beside=said)} A together",
        "read it again, or leave the key out: then the records count",
    )


RULE = rule("PWR114", Severity.WARN, Scope.JOB, check)
