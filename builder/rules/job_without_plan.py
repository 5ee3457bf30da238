"""A job that comes to no plan.

What it catches
---------------
A job whose work pack is refused, or put off until something is measured (a note). The finding
gives the planner's first reason.

Why it matters in the bay
-------------------------
Somebody will stand in the bay with the parts on the bench and no sheet.

Example
-------
Fails::

    kind: no_plan
    refusals: [{decision: no control route, because: the job names no route that carries control}]

Passes::

    kind: tap_plan
    refusals: []

How to mend it
--------------
Do what the reason says. The job's page lists all reasons, and the readings that would settle
them.

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
    """Yield one finding for a pack that the planner refused or put off."""
    if pack.kind == "tap_plan" or not pack.refusals:
        return
    first, more = pack.refusals[0], len(pack.refusals) - 1
    waits = pack.kind == "probe_plan"
    yield Fault(
        ("vehicle",),
        f"{'something must be measured first' if waits else 'there is no plan for this job'}: "
        f"{first.decision}: {first.because}" + (f" (and {more} more)" if more else ""),
        "do what the reason says; the page of the job lists them all",
        Severity.NOTE if waits else None,
    )


RULE = rule("TOP105", Severity.WARN, Scope.JOB, check, not_known=(Severity.NOTE,))
