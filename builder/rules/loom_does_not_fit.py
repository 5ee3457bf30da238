"""A loom that does not go between a plug and its unit.

What it catches
---------------
A loom of a job whose ends do not fit: no end for the unit of the plug, an end whose record names
other mates, another number of cavities, another place of the keyed corner or of a cavity, other
blades. Where no record says whether the two mate, it is a warning.

Why it matters in the bay
-------------------------
The radio is out, the customer waits, and the loom that everything was planned on does not go in.

Example
-------
Fails::

    # plug A has a housing of 16 cavities; the ends of this loom have 18
    looms: [{record: altered-18-rears-out, plug: A}]

Passes::

    looms: [{record: straight-16, plug: A}]

How to mend it
--------------
Take a loom for this plug, or one made from its two housings. When you have pushed the two together
and they fit, write it down under `mates_with` of both housings.

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
    """Yield what keeps a loom from going in."""
    help = "take a loom for this plug, or record what its housings mate with"
    yield from loom_faults(pack, parts, "loom_unfit", help, milder=Severity.WARN)


RULE = rule("LOM113", Severity.STOP, Scope.JOB, check, not_known=(Severity.WARN,))
