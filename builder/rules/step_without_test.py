"""A step that no line of the bay sheet looks at.

What it catches
---------------
A step of joining that could be left out, and every line of the bay sheet would pass.

Why it matters in the bay
-------------------------
A joint that nobody tested is found by the customer, with the trim home.

Example
-------
Fails::

    steps: [{text: line leads, from output to input}]
    tests: [{id: battery-rest}]

Passes::

    steps: [{text: line leads, from output to input}]
    tests: [{id: battery-rest}, {id: subwoofer-line-level}, {id: subwoofer-gain}]

How to mend it
--------------
Read something of your own behind that step, and tell us: the sheet should have a line for it.

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
    """Yield each step whose omission passes the sheet."""
    for flag in flags_of(pack, "step_untested"):
        yield Fault(("routes",), flag.says, "read something of your own behind that step")


RULE = rule("CIR106", Severity.WARN, Scope.JOB, check)
