"""A pair that a speaker plays and that is to be left alone.

What it catches
---------------
A pair with the treatment `none` that a speaker of the job names under `from`.

Why it matters in the bay
-------------------------
One half of the job is planned with it and the other without.

Example
-------
Fails::

    treatment: {rear-left: none}
    speakers: [{name: subwoofer, from: [rear-left, rear-right]}]

Passes::

    treatment: {rear-left: addon}
    speakers: [{name: subwoofer, from: [rear-left, rear-right]}]

How to mend it
--------------
Type addon, or take the pair out of from.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import played, treatment_path, treatments
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair that is asked for and forbidden."""
    done = treatments(parts)
    for name in played(parts.job):
        if done.get(name) == "none":
            yield Fault(
                treatment_path(parts.job, name),
                f"{name} is to be left alone, and a speaker of the job plays it",
                f"type {name}: addon, or take it out of from",
            )


RULE = rule("TOP128", Severity.FIX, Scope.JOB, check)
