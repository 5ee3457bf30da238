"""A printed power that the supply cannot give.

What it catches
---------------
A radio pair of the job that nobody measured and whose printed power means more volts than an
unboosted bridge gives clean (9.12 V, house default).

Why it matters in the bay
-------------------------
A label of 50 W would mean 14.1 V, which is a square wave. Gains set for it leave the amplifier
quiet, and a converter chosen for it is too large.

Example
-------
Fails::

    channels: [{channel: front-left, level: {label_w: 50, label_ohm: 4}}]

Passes::

    channels: [{channel: front-left, level: {clean_max_v_rms: 8.9, at_volume_step: 30}}]

How to mend it
--------------
Nothing need be changed: the plan uses the clean level. Measure it to know better.

Source
------
√(P·R); bridge data sheets (read): 14.4 V less 1.5 V, over √2. The limit is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.names import channel_name
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import played, sound_of, use_path
from builder.rules.rule import Scope, rule
from builder.units import volts_for_power


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair whose label the plan did not believe."""
    clean = parts.shelf.defaults.clean_level_v_rms
    for name in played(parts.job):
        sound, radio_w = sound_of(parts, name), parts.vehicle.radio.label_w
        level = sound.level if sound else None
        if sound is None or sound.driven_by != "radio" or (level and level.clean_max_v_rms):
            continue
        watts = level.label_w if level and level.label_w else radio_w
        ohms = (level.label_ohm if level else None) or sound.speaker_ohm
        if watts and ohms and volts_for_power(watts, ohms) > clean:
            yield Fault(
                use_path(parts.job, name),
                f"{channel_name(name)} is labelled {watts:g} W, "
                f"{volts_for_power(watts, ohms):.1f} V: an unboosted output gives "
                f"{clean:.2f} V clean, and the plan uses that",
                "nothing need be changed; measure the clean maximum to know better",
            )


RULE = rule("LVL101", Severity.NOTE, Scope.JOB, check)
