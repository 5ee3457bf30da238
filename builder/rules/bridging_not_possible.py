"""Channels bridged that cannot be.

What it catches
---------------
A speaker with `bridged_with` on channels that are no neighbours of one group, that the amplifier's
record does not call bridgeable, or of which another speaker uses one.

Why it matters in the bay
-------------------------
Two outputs that are not made for it drive each other through the speaker. They cut out at best.

Example
-------
Fails::

    amplifiers: [{name: amp, part: amn-4}]             # bridgeable: no
    speakers: [{name: sub, driven_by: {amplifier: amp, channel: 3, bridged_with: 4}}]

Passes::

    amplifiers: [{name: amp, part: tsm-75x2}]          # bridgeable: yes
    speakers: [{name: sub, driven_by: {amplifier: amp, channel: 1, bridged_with: 2}}]

How to mend it
--------------
Look the amplifier up: which two channels, by which terminals, into how many ohms.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.levels.bridged_channels import why_not_bridged
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(_pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker on two channels that cannot be bridged."""
    speakers = parts.job.speakers
    for speaker in speakers:
        amplifier = parts.amplifiers.get(speaker.amplifier)
        if amplifier is None:
            continue
        own = [each for each in speakers if each.amplifier == speaker.amplifier]
        against = why_not_bridged(amplifier, speaker, [o for o in own if o is not speaker])
        if against:
            yield Fault(
                (*speaker.path, "driven_by", "bridged_with"),
                f"{speaker.name} cannot be driven by channels {speaker.channel_name}: {against}",
                "drive it by one channel, or by two that may be bridged",
            )


RULE = rule("LVL114", Severity.STOP, Scope.JOB, check, hazard=True)
