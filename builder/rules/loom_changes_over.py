"""A wire that comes out of a loom at another cavity of the job's plug.

What it catches
---------------
A wire that the car uses and that a loom of the job brings to another cavity of the unit: two wires
swapped, or a plug counted on its other face. Where the job cuts all wires that are changed over,
they are joined again by their cavities, and it is a note.

Why it matters in the bay
-------------------------
Battery voltage stands on a speaker output of the radio the moment the plug goes home.

Example
-------
Fails::

    # in the loom
    wires:
      - {from: radio end.3, to: car end.4}
      - {from: radio end.4, to: car end.3}

Passes::

    wires:
      - {through: [3, 4]}

How to mend it
--------------
Put the terminals of the loom right and ring it out again. When it is only a note: join by the
cavities of the bench sheet, never by the loom's colours.

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
    """Yield each wire that is changed over."""
    help = "put the terminals right; wires that are cut are joined by their cavities"
    yield from loom_faults(pack, parts, "loom_crossed", help, milder=Severity.NOTE)


RULE = rule("LOM115", Severity.STOP, Scope.JOB, check)
