"""A warning with the key off would pass an amplifier that is off.

What it catches
---------------
A protected sound that plays, or may play, with the key off, all of whose speakers will hang on
the new amplifier, while the turn-on goes off with the key.

Why it matters in the bay
-------------------------
The lights-left-on warning is silent, the battery is flat in the morning, and it is the shop's
fault.

Example
-------
Fails::

    protected_sounds: [{sound: lights warning, channels: [front-left], plays_key_off: yes}]
    treatment: {front-left: intercept}   # turned on by the accessory wire

Passes::

    protected_sounds: [{sound: lights warning, channels: [front-left], plays_key_off: yes}]
    treatment: {front-left: none}

How to mend it
--------------
Turn the amplifier on from the radio's amplifier turn-on output or from the bias of a pair, or
leave one of the speakers on the car.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.names import channel_name
from builder.planning.car.output_sums import corner_of
from builder.planning.turn_on.better_rung import FOLLOWS_THE_RADIO
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import broken_pairs, treatment_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each key-off sound that nobody would hear."""
    chosen = next((rung for rung in pack.plan.ladder if rung.verdict == "chosen"), None)
    broken = frozenset(broken_pairs(parts))
    if chosen is None or chosen.rung in FOLLOWS_THE_RADIO:
        return
    for sound in parts.vehicle.sounds:
        reached = broken | {corner_of(name) for name in broken}
        if sound.plays_key_off != "no" and sound.channels and reached.issuperset(sound.channels):
            known = sound.plays_key_off == "yes"
            plays = "plays" if known else "may play (nobody listened)"
            yield Fault(
                treatment_path(parts.job, broken_pairs(parts)[0]),
                f"{sound.sound} {plays} with the key off, through "
                f"{', '.join(map(channel_name, sound.channels))} alone, and the amplifier is "
                f"turned on by {chosen.kind.replace('_', ' ')}, which is off then: nobody "
                "would hear it",
                "leave one of these speakers on the car, or use a turn-on that follows the radio",
                nobody_knows=not known,
            )


RULE = rule("TOP113", Severity.FIX, Scope.JOB, check, partly=(Severity.FIX,))
