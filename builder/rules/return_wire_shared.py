"""A floating amplifier on speakers that share a return wire.

What it catches
---------------
Factory speakers that an amplifier of the job drives through wires whose return is shared
(`shared_return: yes`), or may be on common-ground outputs.

Why it matters in the bay
-------------------------
A modern amplifier drives both legs. Joined through a shared return, its outputs short each
other the moment it plays.

Example
-------
Fails::

    channels: [{channel: front-left, shared_return: yes}]
    speakers: [{name: left door, channel: front-left, existing: yes}]

Passes::

    channels: [{channel: front-left, shared_return: yes}]
    speakers: [{name: left door, channel: front-left, existing: no, lead: {length_m: 4.0}}]

How to mend it
--------------
Run a new pair to each speaker (`existing: no` with a `lead`). Where it is not known, read the
ohms between two negative legs with the plug off.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.job import JobSpeaker
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import pairs_of, returns_to, sound_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker whose factory wires may not be driven by a floating output."""
    pairs = pairs_of(parts)
    for speaker in parts.job.speakers:
        amplifier = parts.amplifiers[speaker.amplifier]
        if amplifier.output_floating == "no":
            continue
        for name in returns_to(speaker, parts.vehicle):
            sound, pair = sound_of(parts, name), pairs.get(name)
            shared = sound.shared_return if sound else "unknown"
            common = pair is None or pair.topology != "bridged"
            if shared == "yes" or (shared == "unknown" and common):
                yield _fault(speaker, name, amplifier.name, sure=shared == "yes")


def _fault(speaker: JobSpeaker, name: str, amplifier: str, *, sure: bool) -> Fault:
    says = "shares its return wire" if sure else "may share its return wire (nobody looked)"
    return Fault(
        (*speaker.path, "existing"),
        f"{name} {says}, and both outputs of {amplifier} are driven: they short each other",
        "type existing: no with a new lead, or prove that the return is its own",
        nobody_knows=not sure,
    )


RULE = rule("TOP115", Severity.STOP, Scope.JOB, check, hazard=True, partly=(Severity.STOP,))
