"""Little room at the input of a plan's converter.

What it catches
---------------
In a plan made of a vehicle and a converter, without a job: a pair that leaves less than 3 dB
(house default) to what the input takes, where that input takes no pad. Of jobs this is LVL103.

Why it matters in the bay
-------------------------
A bass boost of the radio, or a hot recording, is enough to clip it.

Example
-------
Fails::

    converter: tsm-2g           # input: {type: ground_referenced, max_v_rms: 12}
    channels: [{channel: rear-left, level: {clean_max_v_rms: 9.0}}]

Passes::

    converter: cvn-2a           # input: {type: floating, max_v_rms: 20}
    channels: [{channel: rear-left, level: {clean_max_v_rms: 9.0}}]

How to mend it
--------------
Hold the volume down by a step and write it on the customer's sheet, or use a converter with
floating inputs, which take a pad.

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
from builder.rules.plan_levels import level_path, thin_words
from builder.rules.rule import Scope, rule


def check(plan: Plan, vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each pair with less room than the house wants."""
    wanted = shelf.defaults.margin_thin_db
    for level in plan.levels:
        if level.verdict == "thin":
            yield Fault(
                level_path(vehicle, level.channel),
                thin_words(level, plan.converter, wanted),
                "limit the volume step, or use a converter with floating inputs",
            )


RULE = rule("LVL111", Severity.WARN, Scope.PLAN, check)
