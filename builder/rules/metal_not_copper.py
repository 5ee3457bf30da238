"""A supply wire that is not copper, or may not be.

What it catches
---------------
A supply of copper-clad aluminium, or of a metal that nobody looked at.

Why it matters in the bay
-------------------------
It has 1.6 times the resistance of copper of that size, and a lower fuse. The label on the reel
says the same size.

Example
-------
Fails::

    supply: {material: unknown, size_awg: 4}

Passes::

    supply: {material: copper, size_awg: 4}

How to mend it
--------------
Scrape a strand: copper is red all through. Or use it and live with the figures of the plan.

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
    for flag in flags_of(pack, "copper_clad", "metal_unknown"):
        yield Fault(
            (*parts.job.supply.path, "material"),
            f"{flag.where}: {flag.says}",
            "use copper, or keep the figures that the plan computed for it",
            nobody_knows=flag.kind == "metal_unknown",
        )


RULE = rule("PWR108", Severity.WARN, Scope.JOB, check, partly=(Severity.WARN,))
