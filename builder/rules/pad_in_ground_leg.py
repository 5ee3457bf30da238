"""A pad is asked for at an input that takes none.

What it catches
---------------
A job with ohms at `pad` whose converter has inputs with a grounded negative terminal.

Why it matters in the bay
-------------------------
A pad is a resistor in each leg. In the leg that is ground it lifts the input off its ground: hum
comes in, and the level at the input is not the one that was computed.

Example
-------
Fails::

    converter: tsm-2g           # input: {type: ground_referenced}
    pad: 560

Passes::

    converter: cvn-2a           # input: {type: floating}
    pad: 560

How to mend it
--------------
Write `pad: auto` or leave it out; take a converter with floating inputs, or one that takes more.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.levels.level_pad import ohm_words
from builder.planning.levels.padded_levels import takes_pad
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield ohms of a pad that nobody can fit."""
    asked = parts.job.pad
    if not isinstance(asked, str) and not takes_pad(parts.converter):
        yield Fault(
            ("pad",),
            f"{ohm_words(asked)} in each leg are asked for, but the negative inputs of "
            f"{parts.converter.name} are ground: a resistor there would lift them",
            "leave `pad` out, or take a converter with floating inputs",
        )


RULE = rule("LVL109", Severity.FIX, Scope.JOB, check)
