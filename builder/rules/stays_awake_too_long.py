"""Staying awake after each lock empties the battery.

What it catches
---------------
What the converter draws after the car is locked comes to more than 2 Ah a day (house default).

Why it matters in the bay
-------------------------
With short errands the battery is flat in a week, and only with this customer.

Example
-------
Fails::

    supply: {idle_a: 0.9, wake_hold_min: 12, locks_per_day: 14}     # 2.5 Ah a day

Passes::

    supply: {idle_a: 0.9, wake_hold_min: 12, locks_per_day: 6}

How to mend it
--------------
Use a switched turn-on, or a converter that lets go earlier.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a warning for a converter that costs too much a day."""
    for flag in flags_of(pack, "latch_heavy"):
        yield Fault(
            (*parts.job.supply.path, "wake_hold_min"),
            f"the converter stays awake after each lock: {flag.says}",
            "use a switched turn-on",
        )


RULE = rule("ONN106", Severity.WARN, Scope.JOB, check)
