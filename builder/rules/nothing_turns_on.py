"""Nothing of this car may turn the system on.

What it catches
---------------
A job in whose car no wire, fuse position, bias or sound was found that may switch the
converter, or the amplifier behind a passive one.

Why it matters in the bay
-------------------------
Somebody will take a wire that is nearly right, and the battery is flat by Monday.

Example
-------
Fails::

    radio: {data_wake: yes}
    converter: cvn-4a           # offset_wake: no
    turn_on: {kind: none}

Passes::

    fuse_positions: [{position: F14, function: accessory}]
    converter: cvn-4a
    turn_on: {kind: fuse_position}

How to mend it
--------------
Measure a switched fuse position asleep and in accessory, or use a converter that wakes from the
bias of a pair. The ladder of the plan says why each rung was refused.

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
    """Yield a fault when the ladder was climbed in vain."""
    climbed = bool(pack.treatments and pack.plan.ladder)
    if climbed and not any(rung.verdict == "chosen" for rung in pack.plan.ladder):
        refused = [
            f"{rung.kind.replace('_', ' ')} {rung.where}: {rung.because}"
            for rung in pack.plan.ladder
            if rung.verdict == "refused"
        ]
        yield Fault(
            ("converter",),
            f"nothing of this car may turn {_switched(parts)} on: "
            f"{'; '.join(refused) or 'no rung of the ladder is there'}",
            "prove a switched fuse position, or use a converter that wakes from the bias of a pair",
        )


def _switched(parts: JobParts) -> str:
    """What waits for it: a passive converter has no turn-on, and the amplifiers hang on the car."""
    waiting = parts.amplifiers if parts.converter.supply is None else (parts.converter.name,)
    return " and ".join(waiting)


RULE = rule("ONN101", Severity.STOP, Scope.JOB, check)
