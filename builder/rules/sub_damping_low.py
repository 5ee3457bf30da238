"""A subwoofer on too much wire.

What it catches
---------------
A subwoofer lead that leaves a damping factor under 20 (house default).

Why it matters in the bay
-------------------------
The cone is no longer held: bass that rings on after the note.

Example
-------
Fails::

    speakers: [{name: sub, nominal_ohm: 1, lead: {size_awg: 12, length_m: 1.0}}]     # 19.8

Passes::

    speakers: [{name: sub, nominal_ohm: 1, lead: {size_awg: 10, length_m: 1.0}}]     # 21.5

How to mend it
--------------
Use a thicker wire, or a shorter one.

Source
------
R/(Rw + Ro); the limit is a house default, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of, speaker_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "lead_damping"):
        yield Fault(
            (*speaker_path(parts.job, flag.where), "lead"),
            f"{flag.where}: {flag.says}",
            "use a thicker wire or a shorter one",
        )


RULE = rule("CAB108", Severity.WARN, Scope.JOB, check)
