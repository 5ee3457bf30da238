"""A plan without a way back.

What it catches
---------------
A tap plan whose revert list is empty.

Why it matters in the bay
-------------------------
The lease ends, and nobody knows which four joints have to be opened.

Example
-------
Fails::

    kind: tap_plan
    revert: []

Passes::

    kind: tap_plan
    revert: [join the radio end of front-left to its speaker end again]

How to mend it
--------------
Make the list before the first cut.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a fault for a plan that only goes forward."""
    if pack.kind == "tap_plan" and not pack.revert:
        yield Fault(
            ("vehicle",),
            "the plan has no list for putting the car back as it was",
            "write down every joint, cap and hole",
        )


RULE = rule("SAF108", Severity.FIX, Scope.JOB, check)
