"""A line level too low for the amplifier.

What it catches
---------------
A line level under 1.12 times (house default) the amplifier's least sensitivity. What counts is
what is left with every input joined to the output: a Y-lead to two inputs of 10 kΩ takes 0.172 dB
from an output of 100 Ω. Of inputs that the amplifier averages, or whose sum nobody looked at, each
needs the whole.

Why it matters in the bay
-------------------------
The amplifier's gain stands at its end, the hiss is heard, and full power is never reached.

Example
-------
Fails::

    converter: cvn-2p           # 0.18 V come out
    amplifiers: [{name: amp 1, part: amn-4}]      # sensitivity: {min_v_rms: 0.25}

Passes::

    converter: cvn-2a
    amplifiers: [{name: amp 1, part: amn-4}]

How to mend it
--------------
Use a converter with more gain, or an amplifier that is more sensitive.

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
    for flag in flags_of(pack, "line_below_sensitivity"):
        yield Fault(
            (*speaker_path(parts.job, flag.where), "driven_by"),
            f"{flag.where}: {flag.says}",
            "use a converter with more gain or a more sensitive amplifier",
        )


RULE = rule("LVL106", Severity.FIX, Scope.JOB, check)
