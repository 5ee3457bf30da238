"""A way through a restraint zone without battery off and wait.

What it catches
---------------
A route or a place of the job in a restraint zone of the vehicle record, in a pack whose steps
have no gate for the battery and the wait. While nobody looked everywhere, every place is one.

Why it matters in the bay
-------------------------
A plug is pulled with the system awake: a stored fault at best.

Example
-------
Fails::

    safety: {restraint_zones: [left seat]}
    routes: [{from: radio, to: amp 1, carries: signal, length_m: 3, zones: [left seat]}]
    steps: [{number: 1, text: slide the seat back, gate: ""}]

Passes::

    safety: {restraint_zones: [left seat]}
    routes: [{from: radio, to: amp 1, carries: signal, length_m: 3, zones: [left seat]}]
    steps: [{number: 1, text: battery negative off, gate: "battery negative off at __:__"}]

How to mend it
--------------
Put the battery and the maker's wait before the first step in the zone, or take another way.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_zones import doubtful_uses, zone_uses
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each touched restraint zone that no gate stands before."""
    if pack.kind != "tap_plan" or any("battery" in step.gate.lower() for step in pack.steps):
        return
    zones = parts.vehicle.safety.restraint_zones
    for path, place in doubtful_uses(parts.job, zones):
        yield Fault(
            path,
            f'nobody looked whether "{place}" is a restraint zone, so it is taken as one, and no '
            "step has the battery off and the wait over before it",
            "add the gate, or look for yellow plugs and sleeves and write down what is there",
        )
    for path, zone in zone_uses(parts.job, zones):
        yield Fault(
            path,
            f'"{zone}" is a restraint zone, and no step has the battery off and the wait over '
            "before it",
            "add the gate, or take another way",
        )


RULE = rule("SAF102", Severity.STOP, Scope.JOB, check, hazard=True)
