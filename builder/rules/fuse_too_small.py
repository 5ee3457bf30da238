"""A fuse smaller than the current it carries.

What it catches
---------------
A run whose fuse is under its full current, or for which no standard fuse is large enough (a
stop), or under the fuses on board behind it (a warning).

Why it matters in the bay
-------------------------
It opens on the first loud evening, on the motorway.

Example
-------
Fails::

    main_fuse_a: 40
    full_current_a: 54.3

Passes::

    main_fuse_a: 60
    full_current_a: 54.3

How to mend it
--------------
Use the next standard fuse and a wire that stands it, or divide the load.

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
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "fuse_below_full_current", "no_fuse_fits", "fuse_below_on_board"):
        yield Fault(
            parts.job.supply.path,
            f"{flag.where}: {flag.says}",
            "use the next larger standard fuse and a wire that stands it",
            Severity.WARN if flag.kind == "fuse_below_on_board" else None,
        )


RULE = rule("PWR102", Severity.STOP, Scope.JOB, check)
