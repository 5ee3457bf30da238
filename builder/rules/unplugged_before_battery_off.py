"""A step that unplugs or cuts before the battery is off.

What it catches
---------------
A step of the build whose text unplugs, cuts or splices, with no battery gate at it or before
it.

Why it matters in the bay
-------------------------
Unplugging live leaves a fault in the best case; cutting live is a short.

Example
-------
Fails::

    steps:
      - {number: 4, phase: build, text: unplug the radio, gate: ""}
      - {number: 5, phase: build, text: battery negative off, gate: "battery negative off at __:__"}

Passes::

    steps:
      - {number: 4, phase: build, text: battery negative off, gate: "battery negative off at __:__"}
      - {number: 5, phase: build, text: unplug the radio, gate: ""}

How to mend it
--------------
Put the battery step first.

Source
------
Common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule

_NEEDS_IT_OFF = re.compile(r"\b(unplug|cut|splice|solder|crimp|break)\b")


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield the first step of the build that comes before the battery gate."""
    for step in pack.steps:
        if "battery" in step.gate.lower():
            return
        if step.phase == "build" and _NEEDS_IT_OFF.search(step.text.lower()):
            yield Fault(
                ("vehicle",),
                f'step {step.number}, "{step.text}", comes before the battery is off and the '
                "wait is over",
                "put the battery step first",
            )
            return


RULE = rule("SAF104", Severity.STOP, Scope.JOB, check, hazard=True)
