"""No restraint part near, in a place that is listed for one.

What it catches
---------------
A part of `access` with `restraint: no` that uncovers a place which the restraint zones of the same
record name.

Why it matters in the bay
-------------------------
One of the two is wrong. If it is the part, somebody pulls a seat or a panel off beside a bag with
the battery on.

Example
-------
Fails::

    safety: {restraint_zones: [under both front seats]}
    access: [{name: left seat, kind: seat, uncovers: [under the left front seat], restraint: no}]

Passes::

    safety: {restraint_zones: [under both front seats]}
    access: [{name: left seat, kind: seat, uncovers: [under the left front seat], restraint: yes}]

How to mend it
--------------
Type `restraint: yes`, unless somebody saw that the part comes off without coming near the restraint
part; then name the zone more closely.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.model.zones import known
from builder.planning.car.route_zones import touches
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each part that denies what the zones of its car say."""
    for part in vehicle.access:
        zones = [
            zone
            for zone in known(vehicle.safety.restraint_zones)
            if part.restraint == "no" and any(touches(place, zone) for place in part.uncovers)
        ]
        if zones:
            yield Fault(
                (*part.path, "restraint"),
                f"no restraint part is near {part.name}, it says here, and it uncovers "
                f'"{zones[0]}", which is a restraint zone',
                "type restraint: yes, or name the zone more closely",
            )


RULE = rule("SAF115", Severity.WARN, Scope.RECORD, check)
