"""Coils that are not wired as the ohms say.

What it catches
---------------
A speaker with several voice coils whose `nominal_ohm` is not what the coils have as they are
said to be wired.

Why it matters in the bay
-------------------------
Gain, current and the least load all follow from the ohms. Two coils of 2 Ω are 4 Ω in series and
1 Ω in parallel: four times the current.

Example
-------
Fails::

    speakers: [{name: sub, nominal_ohm: 2, coils: {number: 2, ohm: 2, wired: parallel}}]

Passes::

    speakers: [{name: sub, nominal_ohm: 1, coils: {number: 2, ohm: 2, wired: parallel}}]

How to mend it
--------------
Read the ohms at the lead's end and write down how the coils are wired.

Source
------
Ohm's law (memory): in series the ohms add up, in parallel their inverses do.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule
from builder.rules.wording import ohms

_NOMINAL_SHARE = 0.05
"""Nominal ohms are rounded: 1.33 Ω is said to be 1.3 Ω. Chosen by this project."""


def check(_pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each speaker whose ohms are not those of its coils as they are wired."""
    for speaker in parts.job.speakers:
        coils = speaker.coils
        if coils is None:
            continue
        seen, said = coils.seen_ohm, speaker.nominal_ohm
        if abs(seen - said) > _NOMINAL_SHARE * seen:
            wired = "by themselves" if coils.wired == "separate" else f"in {coils.wired}"
            yield Fault(
                (*speaker.path, "nominal_ohm"),
                f"{coils.number} coils of {shown(coils.ohm)} Ω {wired} are {ohms(seen, said)}, and "
                f"{speaker.name} is said to have {shown(said, beside=seen)} Ω",
                f"type {shown(seen)}, or how the coils are really wired",
            )


RULE = rule("LVL112", Severity.FIX, Scope.JOB, check)
