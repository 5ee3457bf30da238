"""A load under what the amplifier may drive.

What it catches
---------------
Speakers on one amplifier channel that together have fewer ohms than its `min_ohm`.

Why it matters in the bay
-------------------------
The output stage is driven beyond its current. It cuts out on loud passages at best, and burns
at worst.

Example
-------
Fails::

    amplifiers: [{name: sub amp, part: amn-600}]       # min_ohm: 2
    speakers: [{name: sub, nominal_ohm: 1}]

Passes::

    amplifiers: [{name: sub amp, part: amn-600}]
    speakers: [{name: sub, nominal_ohm: 2}]

How to mend it
--------------
Wire the coils in series, or use an amplifier made for the load.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.planning.levels.amplifier_loads import group_of, load_ohm
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule
from builder.rules.wording import ohms

_HAIR = 1e-9


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each channel whose load is too low, at its first speaker."""
    seen: set[tuple[str, int]] = set()
    for speaker in parts.job.speakers:
        channel = (speaker.amplifier, speaker.amplifier_channel)
        group = group_of(parts.amplifiers[speaker.amplifier], speaker.amplifier_channel)
        together = [s for s in parts.job.speakers if _channel(s) == channel]
        load = load_ohm(tuple(together))
        if channel not in seen and group is not None and load < group.min_ohm * (1 - _HAIR):
            names = " and ".join(each.name for each in together)
            yield Fault(
                (*speaker.path, "nominal_ohm"),
                f"{names} put {ohms(load, group.min_ohm)} on channel {channel[1]} of "
                f"{channel[0]}, which may drive {shown(group.min_ohm)} Ω at least",
                "wire the coils otherwise, or use an amplifier made for the load",
            )
        seen.add(channel)


def _channel(speaker: JobSpeaker) -> tuple[str, int]:
    return (speaker.amplifier, speaker.amplifier_channel)


RULE = rule("LVL108", Severity.STOP, Scope.JOB, check, hazard=True)
