"""A source whose level does not follow the volume.

What it catches
---------------
A pair with `volume: fixed`, or any pair at the radio in front of a factory amplifier of fixed
level.

Why it matters in the bay
-------------------------
Full level at every volume step: the new amplifier plays as loud as it can the moment it is on.

Example
-------
Fails::

    channels: [{channel: front-left, volume: fixed}]
    speakers: [{name: left door, from: [front-left]}]

Passes::

    channels: [{channel: front-left, volume: variable}]
    speakers: [{name: left door, from: [front-left]}]

How to mend it
--------------
Tap behind the factory amplifier, where the volume has been applied.

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
    """Yield each pair that always plays at full level."""
    fixed = parts.vehicle.factory_amplifier.feed == "analogue_fixed"
    for name in played(parts.job):
        sound = sound_of(parts, name)
        at_radio = sound is not None and sound.driven_by == "radio"
        if sound is not None and (sound.volume == "fixed" or (fixed and at_radio)):
            yield Fault(
                use_path(parts.job, name),
                f"the level of {name} does not follow the volume knob: the new amplifier would "
                "play at full level",
                "take a pair behind the factory amplifier",
            )


RULE = rule("TOP124", Severity.STOP, Scope.JOB, check)
