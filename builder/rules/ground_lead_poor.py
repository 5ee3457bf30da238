"""A ground lead that is too long or too thin.

What it catches
---------------
A ground lead of more than 0.5 m (house default), or thinner than the supply it returns.

Why it matters in the bay
-------------------------
Volts that drop in the ground cost twice: as volts, and as whine between amplifier and
converter.

Example
-------
Fails::

    supply: {ground_lead_m: 1.4}

Passes::

    supply: {ground_lead_m: 0.4}

How to mend it
--------------
Ground to bare metal of the body close by, with the gauge of the supply.

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
    for flag in flags_of(pack, "ground_long", "ground_thinner"):
        yield Fault(
            (*parts.job.supply.path, "ground_lead_m"),
            flag.says,
            "ground close by, with the gauge of the supply",
        )


RULE = rule("PWR106", Severity.FIX, Scope.JOB, check)
