"""A line level above what is there to give or take it.

What it catches
---------------
A line level above the converter's greatest output or the amplifier's greatest input.

Why it matters in the bay
-------------------------
It clips before the amplifier is at full power, and no gain knob mends it.

Example
-------
Fails::

    converter: cvn-2p           # gain: {kind: fixed, value: 0.20}
    channels: [{channel: front-left, level: {clean_max_v_rms: 12}}]   # 2.4 V of at most 2.0

Passes::

    converter: cvn-2p
    channels: [{channel: front-left, level: {clean_max_v_rms: 8}}]

How to mend it
--------------
Lower the gain, or use a converter or amplifier that takes it.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of, speaker_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker whose line level the planner found out of its limits."""
    for flag in flags_of(pack, "line_above_output", "line_above_input"):
        yield Fault(
            (*speaker_path(parts.job, flag.where), "driven_by"),
            f"{flag.where}: {flag.says}",
            "use a lower gain, or parts that take the level",
        )


RULE = rule("LVL105", Severity.FIX, Scope.JOB, check)
