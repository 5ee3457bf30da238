"""A restart pulls the supply below what a device needs.

What it catches
---------------
A start-stop car whose supply falls, in a restart, under the least voltage of an amplifier or
the converter.

Why it matters in the bay
-------------------------
It drops out at every traffic light. A capacitor on the turn-on does not help: the supply itself
is short.

Example
-------
Fails::

    restart_supply_v: 7.4
    amplifiers: [{name: amp 1, part: amn-600}]     # supply: {min_v: 8.5}

Passes::

    restart_supply_v: 9.2
    amplifiers: [{name: amp 1, part: amn-600}]

How to mend it
--------------
Use a device that works further down, or feed it through a supply that holds through the
restart.

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
    for flag in flags_of(pack, "supply_dips"):
        yield Fault(
            parts.job.supply.path,
            f"{flag.where}: {flag.says}",
            "use a device that works further down",
        )


RULE = rule("PWR111", Severity.FIX, Scope.JOB, check)
