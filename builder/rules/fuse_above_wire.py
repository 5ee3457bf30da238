"""A fuse larger than the wire behind it stands.

What it catches
---------------
A supply run whose fuse is above the house ceiling of its conductor.

Why it matters in the bay
-------------------------
In a short the wire is the fuse. It runs under the carpet.

Example
-------
Fails::

    supply: {size_awg: 8}      # at most 50 A
    main_fuse_a: 60

Passes::

    supply: {size_awg: 4}      # at most 100 A
    main_fuse_a: 60

How to mend it
--------------
Use a thicker wire. Never a larger fuse, and a smaller one only where it still carries the
current.

Source
------
House table of fuse ceilings, chosen by this project; 33 CFR 183.425 as a cross-check (read).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of, supply_size_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "fuse_above_ceiling"):
        yield Fault(
            supply_size_path(parts.job),
            f"{flag.where}: {flag.says}: in a short the wire burns first",
            "use a thicker wire",
        )


RULE = rule("PWR101", Severity.STOP, Scope.JOB, check, hazard=True)
