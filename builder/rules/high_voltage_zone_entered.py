"""A way along orange high-voltage cable.

What it catches
---------------
A route, an amplifier or a converter of the job in a high-voltage zone of the vehicle record.

Why it matters in the bay
-------------------------
Several hundred volts, direct. A screw, a tie or a chafed lead is enough, also years later.

Example
-------
Fails::

    safety: {high_voltage_zones: [floor tunnel]}
    routes: [{from: radio, to: amp 1, carries: signal, length_m: 3, zones: [floor tunnel]}]

Passes::

    safety: {high_voltage_zones: [floor tunnel]}
    routes: [{from: radio, to: amp 1, carries: signal, length_m: 3, zones: [left sill]}]

How to mend it
--------------
Take another way, at least 0.10 m from every orange cable, and share no grommet, clip or tie
with one.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_zones import zone_uses
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each use of a high-voltage zone."""
    for path, zone in zone_uses(parts.job, parts.vehicle.safety.high_voltage_zones):
        yield Fault(
            path,
            f'"{zone}" holds orange high-voltage cable: nothing of ours comes within 0.10 m of it',
            "take another way or place",
        )


RULE = rule("SAF103", Severity.STOP, Scope.JOB, check, hazard=True)
