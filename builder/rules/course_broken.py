"""A course of work that cannot be carried out.

What it catches
---------------
A step that asks for what is not so when its turn comes: a joint with the battery on, a reading in
a state that the car is not in, a plug that stays off, a joint that no step makes.

Why it matters in the bay
-------------------------
Who follows such a list stands before an open car and has to guess, or joins something live.

Example
-------
Fails::

    steps:
      - {number: 1, text: take test 1, tests: [a-1-ohms-to-body]}
      - {number: 2, text: the battery negative off, moves: [{what: battery, value: off}]}

Passes::

    steps:
      - {number: 1, text: the battery negative off, moves: [{what: battery, value: off}]}
      - {number: 2, text: take test 1, tests: [a-1-ohms-to-body]}

How to mend it
--------------
Do not work by this list; tell us which job it is.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.pack_flags import flags_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each law that the course breaks."""
    for flag in flags_of(pack, "course_broken"):
        yield Fault(("routes",), flag.says, "do not work by this list; tell us which job it is")


RULE = rule("CIR112", Severity.STOP, Scope.JOB, check)
