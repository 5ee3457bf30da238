"""A converter that waits for a bias which is not there.

What it catches
---------------
A turn-on by the bias of a pair on outputs that have none, or too little for the converter.

Why it matters in the bay
-------------------------
It never comes on, or only with loud bass, and the fault looks like a broken converter.

Example
-------
Fails::

    radio: {outputs: common_ground}
    turn_on: {kind: offset_wake, pair: front-left}

Passes::

    radio: {outputs: bridged}
    turn_on: {kind: offset_wake, pair: front-left}

How to mend it
--------------
Use a switched wire or fuse position.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import pairs_of, use_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a fault when the pair that should wake the converter cannot."""
    turn_on, least = pack.plan.turn_on, parts.converter.offset_wake_min_v
    if turn_on.kind != "offset_wake" or turn_on.pair is None:
        return
    pair = pairs_of(parts).get(turn_on.pair)
    low = pair.bias.low_v if pair and pair.bias else None
    if pair is None or pair.topology == "common_ground" or low is None or low < (least or 0.0):
        unread = low is None and (pair is None or pair.topology != "common_ground")
        reads = f"reads {low:.1f} V" if low is not None else "has no bias on record"
        reads += " (nobody measured it)" if unread else ""
        never = "it may never come on" if unread else "it would never come on"
        yield Fault(
            use_path(parts.job, turn_on.pair),
            f"{turn_on.pair} {reads}, and {parts.converter.name} wakes from {least or 0:g} V on "
            f"both legs: {never}",
            "measure both legs with the radio on, or use a switched wire or fuse position"
            if unread
            else "use a switched wire or fuse position",
            nobody_knows=unread,
        )


RULE = rule("ONN107", Severity.STOP, Scope.JOB, check, partly=(Severity.STOP,))
