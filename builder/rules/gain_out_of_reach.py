"""The converter's gain does not reach the level.

What it catches
---------------
A line level that asks of the converter a gain outside its range.

Why it matters in the bay
-------------------------
The knob stands at its end and the level is still wrong: hiss, or no output.

Example
-------
Fails::

    converter: cvn-4a           # gain: {min: 0.05, max: 1.0}
    level: {source_v_rms: 1.6, target_v_rms: 3.6}   # a gain of 2.25

Passes::

    converter: cvn-4a
    level: {source_v_rms: 8.9, target_v_rms: 3.6}   # a gain of 0.40

How to mend it
--------------
Lower the target, or use a converter whose gain reaches.

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
    for flag in flags_of(pack, "gain_out_of_range"):
        yield Fault(
            (*speaker_path(parts.job, flag.where), "driven_by"),
            f"{flag.where}: {flag.says}",
            "use a converter whose gain reaches",
        )


RULE = rule("LVL104", Severity.FIX, Scope.JOB, check)
