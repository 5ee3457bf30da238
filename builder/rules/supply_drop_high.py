"""Too many volts lost on the way to the amplifier.

What it catches
---------------
A supply path that loses more than 0.50 V (house default) at full current, out and back, joints
counted once.

Why it matters in the bay
-------------------------
The amplifier clips early and gets hot, the lights flicker with the bass.

Example
-------
Fails::

    supply: {size_awg: 6, supply_lead_m: 5.2}    # 0.515 V at 54.3 A

Passes::

    supply: {size_awg: 4, supply_lead_m: 5.2}    # 0.354 V

How to mend it
--------------
Use the next thicker wire, or a shorter way.

Source
------
Ohm's law with IEC 60028 and ASTM B258 (read); the limit is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of, supply_size_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "drop_above_limit"):
        yield Fault(
            supply_size_path(parts.job),
            f"{flag.where}: {flag.says}",
            "use a thicker wire or a shorter way",
        )


RULE = rule("PWR104", Severity.FIX, Scope.JOB, check)
