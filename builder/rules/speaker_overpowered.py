"""An amplifier stronger than the speaker, with no voltage to stop at.

What it catches
---------------
A speaker whose amplifier channel gives more than it stands, while the pack sets no voltage
limit for it, or one above √(P·R) of the speaker.

Why it matters in the bay
-------------------------
Set by ear, the voice coil burns within the week. Set by volts it never does.

Example
-------
Fails::

    amplifiers: [{name: sub amp, part: amn-600}]       # 600 W at 2 Ω
    speakers: [{name: sub, rated_w_rms: 500, nominal_ohm: 2}]
    gain: {speaker: sub, set_v_rms: 34.6}

Passes::

    amplifiers: [{name: sub amp, part: amn-600}]
    speakers: [{name: sub, rated_w_rms: 500, nominal_ohm: 2}]
    gain: {speaker: sub, set_v_rms: 31.6}

How to mend it
--------------
Set the gain to the volts of the smaller power. Measure the level of the source when the plan
could not work it out.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.planning.levels.amplifier_loads import ChannelLoad, channel_loads
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule
from builder.units import volts_for_power

_HAIR = 1e-9


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker that nothing keeps from being overpowered."""
    if pack.kind == "no_plan":
        return
    limits = {chain.speaker: chain.set_v_rms for chain in pack.levels}
    loads, _ = channel_loads(parts.job, parts.amplifiers)
    for load in loads.values():
        for speaker in load.speakers if load.power_w > load.speaker_w else ():
            limit = limits.get(speaker.name)
            if limit is None or limit > _most_v_rms(load) * (1 + _HAIR):
                yield _overpowered(load, speaker, limit)


def _most_v_rms(load: ChannelLoad) -> float:
    return volts_for_power(load.speaker_w, load.load_ohm)


def _overpowered(load: ChannelLoad, speaker: JobSpeaker, limit: float | None) -> Fault:
    most = _most_v_rms(load)
    said = "no voltage limit" if limit is None else f"a limit of {shown(limit, 1, beside=most)} V"
    return Fault(
        (*speaker.path, "rated_w_rms"),
        f"{speaker.amplifier} gives {shown(load.power_w, beside=load.speaker_w)} W into "
        f"{speaker.name}, which stands {shown(load.speaker_w)} W, with {said} (at most "
        f"{shown(most, 1, beside=limit or ())} V)",
        f"set the gain to {most:.1f} V",
    )


RULE = rule("LVL107", Severity.FIX, Scope.JOB, check)
