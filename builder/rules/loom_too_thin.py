"""A wire of a loom too thin for what the car sends through it.

What it catches
---------------
A supply or ground whose fuse in the car is larger than the loom's wire stands behind: stop. So is
one whose wire has no size on record: nobody can tell what it carries. A speaker whose two legs
through the loom cost more than a lead may (0.5 dB, house default): a warning.

Why it matters in the bay
-------------------------
The whole radio is fed through the loom. The car's fuse protects the car's wire; a thinner one burns
before it.

Example
-------
Fails::

    # the car feeds cavity 1 through 15 A
    wires:
      - {through: [1], wire: {base: red, size_awg: 20}, carries: supply}

Passes::

    wires:
      - {through: [1], wire: {base: red, size_awg: 14}, carries: supply}

How to mend it
--------------
Take a loom with thicker wires, or put a thicker wire into its place. A smaller fuse in the car
cures it as well, where the radio does with it.

Source
------
Common practice, no source. Fuse ceilings and the loss are house defaults.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_looms import loom_faults
from builder.rules.rule import Scope, rule

_LOOK = "measure the wire and type its size in the loom's record, or take a wire of known size"


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each wire that is too thin."""
    help = "take a thicker wire for it"
    yield from loom_faults(pack, parts, "loom_thin", help, milder=Severity.WARN)
    yield from loom_faults(pack, parts, "loom_no_size", _LOOK, milder=Severity.STOP)


RULE = rule("LOM116", Severity.STOP, Scope.JOB, check, hazard=True, partly=(Severity.STOP,))
