"""A source from which the centre has been taken out.

What it catches
---------------
A front pair with `upmix: yes`: what both sides share goes to a centre speaker and is missing
there.

Why it matters in the bay
-------------------------
The singer is gone from the new front stage.

Example
-------
Fails::

    channels: [{channel: front-left, upmix: yes}]
    speakers: [{name: left door, from: [front-left]}]

Passes::

    channels: [{channel: front-left, upmix: no}]
    speakers: [{name: left door, from: [front-left]}]

How to mend it
--------------
Set the radio to plain stereo and test it with a mono track, or take another source.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import sound_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair a speaker plays that lacks what both sides share."""
    for speaker in parts.job.speakers:
        for index, name in enumerate(speaker.plays):
            sound = sound_of(parts, name)
            if sound is not None and sound.upmix == "yes":
                yield Fault(
                    (*speaker.path, "from", index),
                    f"what both sides share is taken out of {name}: {speaker.name} plays without "
                    "the voices",
                    "set the radio to plain stereo and play a mono track before the gain is set",
                )


RULE = rule("TOP123", Severity.WARN, Scope.JOB, check)
