"""A subwoofer whose box nobody described.

What it catches
---------------
A new subwoofer without `box`, where the job states no subsonic corner itself.

Why it matters in the bay
-------------------------
What keeps its cone from its stop depends on the box: a sealed one needs nothing, a vented one a
corner under its tuning. Until somebody says which it is, the steps hold everything that is loud.

Example
-------
Fails::

    speakers: [{name: subwoofer, channel: sub}]

Passes::

    speakers: [{name: subwoofer, channel: sub, box: {kind: sealed}}]

How to mend it
--------------
Look at it: closed all round, with a port or a second cone without a magnet, or no box at all. Write
it down as `box`, a vented one with its tuning.

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
    """Yield each subwoofer that is held from being loud."""
    for flag in flags_of(pack, "box_not_said"):
        yield Fault(
            speaker_path(parts.job, flag.where),
            flag.says,
            "type box with its kind, vented with tuned_hz, or filters.subsonic_hz",
        )


RULE = rule("LVL115", Severity.WARN, Scope.JOB, check, not_known=Severity)
