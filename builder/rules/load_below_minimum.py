"""A load under what the amplifier may drive.

What it catches
---------------
Speakers on one amplifier channel that together have fewer ohms than its `min_ohm`; on two bridged
channels, fewer than they may drive bridged: `bridged.min_ohm`, or twice `min_ohm`.

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
from builder.planning.levels.amplifier_loads import load_ohm
from builder.planning.levels.bridged_channels import as_driven, group_at
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule
from builder.rules.wording import ohms

_HAIR = 1e-9


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each channel whose load is too low, at its first speaker."""
    seen: set[tuple[str, int]] = set()
    for speaker in parts.job.speakers:
        channel = (speaker.amplifier, speaker.amplifier_channel)
        group = group_at(parts.amplifiers[speaker.amplifier], speaker.amplifier_channel)
        together = [s for s in parts.job.speakers if _channel(s) == channel]
        load = load_ohm(tuple(together))
        least = 0.0 if group is None else as_driven(group, speaker).min_ohm
        if channel not in seen and load < least * (1 - _HAIR):
            names = " and ".join(each.name for each in together)
            yield Fault(
                (*speaker.path, "nominal_ohm"),
                f"{names} put {ohms(load, least)} on channel {speaker.channel_name} of "
                f"{channel[0]}, which may drive {shown(least)} Ω at least",
                "wire the coils otherwise, or use an amplifier made for the load",
            )
        seen.add(channel)


def _channel(speaker: JobSpeaker) -> tuple[str, int]:
    return (speaker.amplifier, speaker.amplifier_channel)


RULE = rule("LVL108", Severity.STOP, Scope.JOB, check, hazard=True)
