"""Too much unfused wire at the battery.

What it catches
---------------
More than 0.45 m of wire (house default) between the battery post and the main fuse.

Why it matters in the bay
-------------------------
This piece has nothing before it but the battery. In a crash it is the one that is crushed.

Example
-------
Fails::

    supply: {fuse_to_battery_m: 1.2}

Passes::

    supply: {fuse_to_battery_m: 0.3}

How to mend it
--------------
Move the fuse holder towards the battery.

Source
------
House default, chosen by this project; 33 CFR 183.455(b) allows 7 in bare and 40 in sheathed
(read).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "fuse_far"):
        yield Fault(
            (*parts.job.supply.path, "fuse_to_battery_m"),
            f"{flag.says}: nothing protects that piece",
            "move the fuse holder towards the battery",
        )


RULE = rule("PWR103", Severity.FIX, Scope.JOB, check)
