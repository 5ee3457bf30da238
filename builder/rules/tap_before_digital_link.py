"""A tap at a radio that sends its sound as data.

What it catches
---------------
A pair `driven_by: radio` in a car whose factory amplifier has a digital feed.

Why it matters in the bay
-------------------------
The cavities are there and carry nothing. Half a day goes by before somebody believes it.

Example
-------
Fails::

    factory_amplifier: {feed: digital}
    channels: [{channel: front-left, driven_by: radio}]

Passes::

    factory_amplifier: {feed: digital}
    channels: [{channel: front-left, driven_by: amplifier}]

How to mend it
--------------
Take the pairs at the outputs of the factory amplifier.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import played, sound_of, use_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair of the job that the radio does not really drive."""
    if parts.vehicle.factory_amplifier.feed != "digital":
        return
    for name in played(parts.job):
        sound = sound_of(parts, name)
        if sound is not None and sound.driven_by == "radio":
            yield Fault(
                use_path(parts.job, name),
                f"{name} is taken at the radio, which sends its sound to the amplifier as data: "
                "there is nothing on its wires",
                "take the pair at the output of the factory amplifier",
            )


RULE = rule("TOP125", Severity.STOP, Scope.JOB, check)
