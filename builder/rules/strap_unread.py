"""A strap that nobody read.

What it catches
---------------
A job grounded at the body, in a car whose straps between battery, body and engine nobody read.

Why it matters in the bay
-------------------------
All the current of the amplifiers comes back through them. Read before cable is bought, a poor
strap costs minutes; afterwards it looks like a poor cable.

Example
-------
Fails::

    supply: {ground_point: body_side}

Passes::

    supply: {ground_point: body_side, strap: {drop_mv: 9, at_a: 10}}

How to mend it
--------------
With a known current flowing, read battery negative to the ground point in millivolts, and to the
engine with it running; write the worse one down.

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
    for flag in flags_of(pack, "strap_unread"):
        yield Fault(
            parts.job.supply.path,
            flag.says,
            "read battery negative to the ground point, in mV at a known current",
        )


RULE = rule("PWR113", Severity.WARN, Scope.JOB, check, not_known=Severity)
