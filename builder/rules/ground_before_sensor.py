"""A ground that the battery sensor does not see.

What it catches
---------------
A ground on the negative post, or nobody knows where, in a car with a current sensor on that
post, or where nobody looked for one.

Why it matters in the bay
-------------------------
The car counts the charge wrong. Start-stop stays off, and the battery is charged badly for
years.

Example
-------
Fails::

    power: {battery: {sensor_on_negative: yes}}
    supply: {ground_point: battery_post}

Passes::

    power: {battery: {sensor_on_negative: yes}}
    supply: {ground_point: body_side}

How to mend it
--------------
Ground on the body, on the far side of the sensor.

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
    for flag in flags_of(pack, "ground_before_sensor"):
        sensor = parts.vehicle.power.battery.sensor_on_negative
        unknown = [
            "whether there is a sensor" if sensor == "unknown" else "",
            "where the ground goes" if parts.job.supply.ground_point == "unknown" else "",
        ]
        nobody = " and ".join(filter(None, unknown))
        yield Fault(
            (*parts.job.supply.path, "ground_point"),
            f"{flag.says}; nobody said {nobody}" if nobody else flag.says,
            "type ground_point: body_side and ground there",
            nobody_knows=bool(nobody),
        )


RULE = rule("PWR107", Severity.FIX, Scope.JOB, check, partly=(Severity.FIX,))
