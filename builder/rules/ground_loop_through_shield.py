"""A ground loop through the shield of a line lead.

What it catches
---------------
A converter and an amplifier that are grounded at places which meet in the car's body alone, joined
by a line lead whose shield is ground at both ends: the converter is active, and the amplifier's
line input is ground-referenced, or nobody looked.

Why it matters in the bay
-------------------------
The body carries the currents of lamps, fans and the alternator. What they lose between the two
places lies on the shield and is heard as a whine that follows the engine.

Example
-------
Fails::

    converter_supply: radio              # grounded at the radio's plug
    amplifiers: [{name: amp 1, part: tsm-75x2, place: boot}]    # input_type: ground_referenced

Passes::

    converter_supply: amplifier          # the same ground for both
    amplifiers: [{name: amp 1, part: tsm-75x2, place: boot}]

How to mend it
--------------
Ground the converter at the amplifier's terminal, take an amplifier with differential inputs, or a
converter with transformers, whose windings close no loop.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.circuit import laws
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.circuit_places import place_in_job
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each amplifier that a shield joins to another ground."""
    for breach in laws.shield_loops(pack.circuit) if pack.circuit else ():
        converter, amplifier = breach.pieces
        kind = parts.amplifiers[amplifier].input_type
        if kind == "differential":
            continue
        said = {"ground_referenced": "is ground", "unknown": "may be ground, nobody looked"}[kind]
        yield Fault(
            place_in_job(parts, f"{amplifier} GND"),
            f"{converter} and {amplifier} are grounded at different places, and the shield between "
            f"them {said} at both ends",
            "ground both at the amplifier, or part them by differential inputs or transformers",
            severity=None if kind == "ground_referenced" else Severity.WARN,
        )


RULE = rule("CIR110", Severity.FIX, Scope.JOB, check, not_known=(Severity.WARN,))
