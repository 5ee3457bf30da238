"""Pairs must be added up and the converter cannot.

What it catches
---------------
A speaker on one amplifier channel that plays several factory pairs, with a converter that adds
none, or only those of one side.

Why it matters in the bay
-------------------------
The second pair is left over, and what it carries is missing: the treble, the other side's bass.

Example
-------
Fails::

    converter: cvn-4a          # sum: none
    speakers: [{name: left, from: [front-left-woofer, front-left-tweeter]}]

Passes::

    converter: cvn-6s          # sum: any
    speakers: [{name: left, from: [front-left-woofer, front-left-tweeter]}]

How to mend it
--------------
Use a converter that sums. A subwoofer amplifier with two inputs adds left and right itself and
needs none.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.planning.car.output_sums import corners_of
from builder.planning.levels.bridged_channels import group_at
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker whose pairs this converter cannot bring together."""
    can = parts.converter.sum
    for speaker in parts.job.speakers:
        if len(speaker.plays) < 2 or can == "any" or _amplifier_adds(speaker, parts):
            continue
        if can == "none" or len(corners_of(speaker.plays)) > 1:
            does = "adds none up" if can == "none" else "adds up only pairs of one side"
            yield Fault(
                (*speaker.path, "from"),
                f"{speaker.name} plays {' and '.join(speaker.plays)}, and {parts.converter.name} "
                f"{does}: part of the sound would be missing",
                "use a converter that sums, or one pair only",
            )


def _amplifier_adds(speaker: JobSpeaker, parts: JobParts) -> bool:
    """Whether it is a subwoofer fed with one pair a side, which its amplifier makes mono."""
    sides = {side for name in speaker.plays for side in ("left", "right") if side in name}
    group = group_at(parts.amplifiers[speaker.amplifier], speaker.amplifier_channel)
    return group is not None and group.use == "sub" and len(speaker.plays) == len(sides) == 2


RULE = rule("TOP119", Severity.STOP, Scope.JOB, check)
