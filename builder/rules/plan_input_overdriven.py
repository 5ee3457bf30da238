"""A plan's source is louder than the converter takes.

What it catches
---------------
In a plan made of a vehicle and a converter, without a job: a pair whose clean maximum is above
what the input stands, and whose input takes no pad. Of jobs this is LVL102.

Why it matters in the bay
-------------------------
It clips before half volume, and the input stage takes what it is not made for.

Example
-------
Fails::

    converter: tsm-2g           # input: {type: ground_referenced, max_v_rms: 12}
    channels: [{channel: rear-left, level: {clean_max_v_rms: 14.5}}]

Passes::

    converter: cvn-2a           # input: {type: floating, max_v_rms: 20}
    channels: [{channel: rear-left, level: {clean_max_v_rms: 14.5}}]

How to mend it
--------------
Use a converter with more input range, or one with floating inputs, which take a pad.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.planning.plan import Plan
from builder.rules.plan_levels import level_path, over_words
from builder.rules.rule import Scope, rule


def check(plan: Plan, vehicle: Vehicle, _: Shelf) -> Iterator[Fault]:
    """Yield each pair that clips the input."""
    for level in plan.levels:
        if level.verdict == "over":
            yield Fault(
                level_path(vehicle, level.channel),
                over_words(level, plan.converter),
                "use a converter with more input range, or one with floating inputs",
            )


RULE = rule("LVL110", Severity.STOP, Scope.PLAN, check, hazard=True)
