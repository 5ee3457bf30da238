"""More music current than the wire carries.

What it catches
---------------
A conductor or a speaker lead whose average music current is above what its size carries.

Why it matters in the bay
-------------------------
It gets warm under the carpet, and the bass is soft.

Example
-------
Fails::

    speakers: [{name: sub, nominal_ohm: 1, rated_w_rms: 1000, lead: {size_awg: 16, length_m: 1}}]

Passes::

    speakers: [{name: sub, nominal_ohm: 1, rated_w_rms: 1000, lead: {size_awg: 10, length_m: 1}}]

How to mend it
--------------
Use a thicker wire.

Source
------
√(P/(3·R)) for heavy music; the ceilings are house defaults, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of, speaker_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each overloaded lead at its speaker, and each overloaded conductor at the cables."""
    for flag in flags_of(pack, "lead_overloaded", "conductor_overloaded"):
        of_lead = flag.kind == "lead_overloaded"
        yield Fault(
            (*speaker_path(parts.job, flag.where), "lead") if of_lead else ("cables",),
            f"{flag.where}: {flag.says}",
            "use a thicker wire",
        )


RULE = rule("CAB104", Severity.FIX, Scope.JOB, check)
