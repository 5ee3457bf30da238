"""Rear speakers that play the sound of the front.

What it catches
---------------
A rear speaker of the job whose sound comes from front pairs only, or a front one that plays
only the rear; or one whose own pair finds no input on the converter, so that only the other end
is left for it.

Why it matters in the bay
-------------------------
The fader of the radio no longer does anything to it. The customer finds out on the first
evening.

Example
-------
Fails::

    speakers:
      - {name: rear left door, channel: rear-left, from: [front-left]}

Passes::

    speakers:
      - {name: rear left door, channel: rear-left, from: [rear-left]}

How to mend it
--------------
Use a converter with an input for each door, or tell the customer that the fader is gone.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import played
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker whose sound is, or can only be, that of the other end of the car."""
    without_input = frozenset(played(parts.job)[parts.converter.inputs :])
    for speaker in parts.job.speakers:
        own = speaker.channel.split("-")[0]
        other = {"front": "rear", "rear": "front"}.get(own)
        ends = {name.split("-")[0] for name in speaker.plays}
        if other is not None and ends == {other}:
            says = f"{speaker.name} plays the sound of the {other}"
        elif other is not None and without_input.issuperset(speaker.plays):
            says = f"no input is left for {speaker.name}: it could only play the {other}"
        else:
            continue
        yield Fault(
            (*speaker.path, "from"),
            f"{says}, and the fader no longer moves it",
            "use a converter with an input for each door, or tell the customer",
        )


RULE = rule("TOP117", Severity.WARN, Scope.JOB, check)
