"""Not enough cable for what must be joined.

What it catches
---------------
Pairs or singles for which the cables of the job have no conductor, or a reel that holds less
than is cut from it.

Why it matters in the bay
-------------------------
Eighteen conductors are nine pairs, and four jackets of two pairs hold eight. The ninth is found
missing when the carpet is back.

Example
-------
Fails::

    cables: [three-core-18]    # no pair in it
    routes: [{from: radio, to: converter, carries: signal, length_m: 3.6, zones: []}]

Passes::

    cables: [five-core-18]
    routes: [{from: radio, to: converter, carries: signal, length_m: 3.6, zones: []}]

How to mend it
--------------
Put a cable with whole pairs on the list, or order more.

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
    for flag in flags_of(pack, "no_conductor_fits", "reel_short"):
        yield Fault(
            ("cables",),
            f"{flag.where}: {flag.says}",
            "add a cable with enough whole pairs, or another reel",
        )


RULE = rule("CAB101", Severity.STOP, Scope.JOB, check)
