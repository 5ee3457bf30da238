"""The car cannot spare what the music takes.

What it catches
---------------
What the alternator leaves at hot idle, or the DC-DC converter of a hybrid, is less than the
average current of the amplifiers.

Why it matters in the bay
-------------------------
In traffic the battery empties instead of filling. After two weeks the car does not start.

Example
-------
Fails::

    power: {charging: {by: alternator, rated_a: 150}, base_load_a: 50}   # 32.5 A at idle
    music_current_a: 46.8

Passes::

    power: {charging: {by: alternator, rated_a: 150}, base_load_a: 50}
    music_current_a: 18.1

How to mend it
--------------
Use a smaller or more efficient amplifier, or a stronger alternator, or accept it with how the
customer listens.

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
    for flag in flags_of(pack, "reserve_short"):
        yield Fault(
            (*parts.job.supply.path, "listening"),
            f"{flag.says}: the battery empties while the engine runs",
            "use less power, or accept this with how the customer listens",
        )


RULE = rule("PWR105", Severity.FIX, Scope.JOB, check)
