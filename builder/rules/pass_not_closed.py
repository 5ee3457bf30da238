"""A cable through a bulkhead, and nobody said how it is closed.

What it catches
---------------
An entry of `passes` whose `seal` or `drip_loop` is unknown.

Why it matters in the bay
-------------------------
The edge of the sheet wears through the sleeve, and the supply lead meets the body. Water follows
the cable inwards and stands where the plugs are.

Example
-------
Fails::

    passes: [{through: main grommet, carries: [supply], seal: unknown, drip_loop: unknown}]

Passes::

    passes: [{through: main grommet, carries: [supply], seal: grommet, drip_loop: yes}]

How to mend it
--------------
Decide before the cable is cut: a grommet of the right size, sealed around the cable, and a loop
that hangs lower than the hole on the wet side. Type `drip_loop: no` where the place stays dry.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(job: Job, _shelf: Shelf, _vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield each pass of which it is not decided how edge and water are kept off."""
    for one in job.passes:
        open_keys = [
            key for key, word in (("seal", one.seal), ("drip_loop", one.drip_loop))
            if word == "unknown"
        ]  # fmt: skip
        for key in open_keys:
            yield Fault(
                (*one.path, key),
                f"{one.through}: nobody decided {_OPEN[key]}",
                f"decide it before the cable is cut, then type it at {key}",
            )


_OPEN = {
    "seal": "what keeps the edge off the cable",
    "drip_loop": "whether water can run in along it",
}

RULE = rule("SAF117", Severity.FIX, Scope.NAMES, check, not_known=Severity)
