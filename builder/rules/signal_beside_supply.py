"""Signal and supply side by side.

What it catches
---------------
A signal and a supply route of more than 1 m that pass through one zone of the job.

Why it matters in the bay
-------------------------
The alternator is heard in the speakers, and it is looked for everywhere but under the sill.

Example
-------
Fails::

    routes:
      - {from: radio, to: converter, carries: signal, length_m: 3.6, zones: [left sill]}
      - {from: battery, to: amp 1, carries: supply, length_m: 5.2, zones: [left sill]}

Passes::

    routes:
      - {from: radio, to: converter, carries: signal, length_m: 3.6, zones: [right sill]}
      - {from: battery, to: amp 1, carries: supply, length_m: 5.2, zones: [left sill]}

How to mend it
--------------
Take the other side of the car, or keep 0.3 m apart and cross at a right angle.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule

SIDE_BY_SIDE_M = 1.0
"""Shorter than this a parallel run is not worth a detour. Common practice. [m]"""


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each signal route that shares a zone with a supply route."""
    long = [each for each in parts.job.routes if each.length_m > SIDE_BY_SIDE_M]
    supply = {zone for each in long if each.carries == "supply" for zone in each.zones}
    for route in long:
        for index, zone in enumerate(route.zones if route.carries == "signal" else ()):
            if zone in supply:
                yield Fault(
                    (*route.path, "zones", index),
                    f"signal and supply both run through {zone}, {shown(route.length_m)} m of it "
                    "at most (at least 0.3 m apart is asked): the alternator will be heard",
                    "take the other side of the car, or keep 0.3 m apart",
                )


RULE = rule("CAB110", Severity.WARN, Scope.JOB, check)
