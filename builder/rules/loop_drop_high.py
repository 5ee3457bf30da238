"""Too many volts lost in the whole loop.

What it catches
---------------
Run, joints, ground, body and straps together lose more at full current than the house allows
(0.50 V, house default), although the run alone does not.

Why it matters in the bay
-------------------------
The new cable is thick and the amplifier still starves: the car's own strap is the thin part.

Example
-------
Fails::

    supply: {strap: {drop_mv: 30, at_a: 10}}

Passes::

    supply: {strap: {drop_mv: 9, at_a: 10}}

How to mend it
--------------
Clean or double the strap from battery to body and from engine to body, read it again. A thicker
cable cures it too, and costs more.

Source
------
Common practice, no source. The limit is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "loop_drop_high"):
        yield Fault(
            (*parts.job.supply.path, "strap"),
            flag.says,
            "mend or double the strap, then read it again",
        )


RULE = rule("PWR112", Severity.FIX, Scope.JOB, check)
