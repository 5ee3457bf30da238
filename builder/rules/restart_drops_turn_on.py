"""A restart of the engine lets the turn-on drop out.

What it catches
---------------
A start-stop car whose turn-on falls below what an input needs, or nobody knows how far, while
nothing on the parts list holds it up.

Why it matters in the bay
-------------------------
At every traffic light the amplifier goes off and thumps on again.

Example
-------
Fails::

    features: {start_stop: yes}
    turn_on: {dip_v: 8.9, threshold_v: 9.5, hold_up: none}

Passes::

    features: {start_stop: yes}
    turn_on: {dip_v: 8.9, threshold_v: 9.5, hold_up: 4700 µF}

How to mend it
--------------
Time the dip with a scope and write it down; the plan then sizes the capacitor. Or turn on from
the bias of a pair.

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
    """Yield each dip for which the planner could size no capacitor."""
    for flag in flags_of(pack, "restart_drops_turn_on"):
        yield Fault(
            ("converter",),
            f"{flag.says}, and nothing holds it up: the system goes off at every restart",
            "time the dip with a scope so that a capacitor can be sized, or use another turn-on",
        )


RULE = rule("ONN105", Severity.FIX, Scope.JOB, check)
