"""A new speaker lead that costs too much level.

What it catches
---------------
A new lead that takes more than 0.5 dB from a door, or 0.25 dB from a subwoofer (house
defaults).

Why it matters in the bay
-------------------------
It cannot be heard as such, but it is paid for in amplifier power and damping.

Example
-------
Fails::

    speakers: [{name: left, nominal_ohm: 4, lead: {size_awg: 18, length_m: 7.5}}]     # 0.66 dB

Passes::

    speakers: [{name: left, nominal_ohm: 4, lead: {size_awg: 14, length_m: 7.5}}]

How to mend it
--------------
Use a thicker wire or a shorter way.

Source
------
20·log10(R/(R + Rw)); the limits are house defaults, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of, speaker_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "lead_loss"):
        yield Fault(
            (*speaker_path(parts.job, flag.where), "lead"),
            f"{flag.where}: {flag.says}",
            "use a thicker wire or a shorter way",
        )


RULE = rule("CAB107", Severity.WARN, Scope.JOB, check)
