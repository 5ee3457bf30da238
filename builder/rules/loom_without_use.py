"""A loom of the job that nothing is done with.

What it catches
---------------
A loom that the job names and of which no wire is cut, brought out or joined beside.

Why it matters in the bay
-------------------------
It is bought, rung out and plugged in, and does nothing but add two joints to every wire of the
radio. Most often the plug is the wrong one.

Example
-------
Fails::

    # every pair of the job sits in plug A
    looms: [{record: straight-16, plug: B}]

Passes::

    looms: [{record: straight-16, plug: A}]

How to mend it
--------------
Name the plug that the job's wires sit in, or take the loom out of the job.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_looms import loom_faults
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each loom that nothing is done with."""
    help = "name the plug that the job's wires sit in, or take the loom out"
    yield from loom_faults(pack, parts, "loom_idle", help, milder=Severity.NOTE)


RULE = rule("LOM117", Severity.NOTE, Scope.JOB, check)
