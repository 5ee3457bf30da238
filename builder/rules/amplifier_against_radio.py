"""A new amplifier plays into a pair that the radio still drives.

What it catches
---------------
A factory speaker that an amplifier of the job drives through its own wires, while the pair is
an add-on or left alone instead of an intercept.

Why it matters in the bay
-------------------------
Two outputs fight over one pair. The radio's output stage burns, and often the amplifier's too.

Example
-------
Fails::

    treatment: {rear-left: addon}
    speakers:
      - {name: rear left, channel: rear-left, existing: yes, from: [rear-left]}

Passes::

    treatment: {rear-left: intercept}
    speakers:
      - {name: rear left, channel: rear-left, existing: yes, from: [rear-left]}

How to mend it
--------------
Break the pair (`intercept`), or run new wires to the speaker and type `existing: no`.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.words import Treatment
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import returns_to, treatment_path, treatments
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair that both the car and a new amplifier would drive."""
    done = treatments(parts)
    for speaker in parts.job.speakers:
        for name in returns_to(speaker, parts.vehicle):
            if done.get(name) != "intercept":
                yield Fault(
                    treatment_path(parts.job, name),
                    f"{name} is {_said(done.get(name))}, and {speaker.amplifier} drives "
                    f"{speaker.name} through the same wires: two outputs on one pair destroy "
                    "each other",
                    f"type {name}: intercept, or give the speaker new wires (existing: no)",
                )


def _said(word: Treatment | None) -> str:
    said: dict[Treatment | None, str] = {"addon": "an add-on", "line_tap": "a line tap"}
    return said.get(word, "left alone")


RULE = rule("TOP110", Severity.STOP, Scope.JOB, check, hazard=True)
