"""More bass in a car that cancels noise.

What it catches
---------------
A subwoofer, or broken pairs, in a car with `noise_cancellation: yes` or `unknown`.

Why it matters in the bay
-------------------------
The cancelling is tuned for the car's own speakers. With more bass it feeds back on itself: a
drone at idle that no gain setting cures.

Example
-------
Fails::

    features: {noise_cancellation: yes}
    speakers: [{name: subwoofer, channel: sub}]

Passes::

    features: {noise_cancellation: no}
    speakers: [{name: subwoofer, channel: sub}]

How to mend it
--------------
Unplug the microphones of the system, insulate their plugs, write it into the revert list, and
accept this finding with where they are. Prove it with the engine at 1200 to 2500 r/min, windows
shut.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import broken_pairs, treatment_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a fault where added bass and active cancelling meet."""
    known = parts.vehicle.features.noise_cancellation
    subs = [speaker for speaker in parts.job.speakers if speaker.channel == "sub"]
    broken = broken_pairs(parts)
    if known == "no" or not (subs or broken):
        return
    path = (*subs[0].path, "channel") if subs else treatment_path(parts.job, broken[0])
    has = "has" if known == "yes" else "may have (nobody looked)"
    yield Fault(
        path,
        f"the car {has} active noise cancellation, tuned for its own speakers: with other bass "
        "it drones at idle",
        "unplug and insulate its microphones, note it for the revert, and accept this with where"
        if known == "yes"
        else "look whether it has (microphones in the roof lining), and record the answer",
        nobody_knows=known == "unknown",
    )


RULE = rule("TOP126", Severity.FIX, Scope.JOB, check, partly=(Severity.FIX,))
