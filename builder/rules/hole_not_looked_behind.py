"""A hole that nobody has looked behind.

What it catches
---------------
A hole of the job whose `behind` is unknown or that has no `looked_by`.

Why it matters in the bay
-------------------------
Behind sheet metal lie fuel and brake lines, looms and tanks. What a drill meets there is known
before it turns, or too late.

Example
-------
Fails::

    holes: [{where: boot floor, purpose: screws of amp 1, size_mm: 4, behind: unknown}]

Passes::

    holes: [{where: boot floor, purpose: screws of amp 1, size_mm: 4, behind: "free air, 60 mm",
             looked_by: alder-pit-audio}]

How to mend it
--------------
Look from below or behind, with the lining off; write down what is there and who looked.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(job: Job, _shelf: Shelf, _vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield each hole behind which nobody has looked."""
    for hole in job.holes:
        if not hole.known:
            yield Fault(
                hole.path,
                f"nobody has looked behind the {shown(hole.size_mm)} mm hole in {hole.where}",
                "look or feel behind it, then type what is there at behind and who at looked_by",
            )


RULE = rule("SAF113", Severity.FIX, Scope.NAMES, check, not_known=Severity)
