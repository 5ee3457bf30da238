"""A relay coil without a diode on the turn-on.

What it catches
---------------
A coil among the other turn-on loads without a diode across it, or where nobody looked.

Why it matters in the bay
-------------------------
When the coil lets go it kicks back with a hundred volts and more, into the output that switched
it.

Example
-------
Fails::

    other_turn_on_loads: [{name: fan relay, draw_ma: 150, coil: yes, diode: no}]

Passes::

    other_turn_on_loads: [{name: fan relay, draw_ma: 150, coil: yes, diode: yes}]

How to mend it
--------------
Put a diode across the coil, its band to the positive side, and type diode: yes. Where nobody
looked, look first: a relay with a diode inside has a mark on its case.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each coil that nothing keeps from kicking back."""
    for load in parts.job.other_turn_on_loads:
        if load.coil and load.diode != "yes":
            known = "has no diode" if load.diode == "no" else "may have no diode (nobody looked)"
            help = "put a diode across it and type diode: yes"
            if load.diode == "unknown":
                help = f"look whether there is one, or {help}"
            yield Fault(
                (*load.path, "diode"),
                f"the coil of {load.name}, {load.draw_ma:g} mA, {known}: it kicks back into what "
                "switches it",
                help,
                nobody_knows=load.diode == "unknown",
            )


RULE = rule("ONN104", Severity.FIX, Scope.JOB, check, partly=(Severity.FIX,))
