"""A thin branch behind a large fuse.

What it catches
---------------
A branch of the supply without a fuse of its own, whose wire stands less than the fuse before
it.

Why it matters in the bay
-------------------------
The main fuse never notices a short on the thin wire. The wire does.

Example
-------
Fails::

    runs:
      - {name: supply of distribution block, conductor: 1/0 AWG copper, fuse_a: 175}
      - {name: branch to amp 2, conductor: 8 AWG copper, fuse_a: none}

Passes::

    runs:
      - {name: supply of distribution block, conductor: 1/0 AWG copper, fuse_a: 175}
      - {name: branch to amp 2, conductor: 8 AWG copper, fuse_a: 40}

How to mend it
--------------
Put a fuse at the distribution block, at most as large as the branch stands.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each branch that no fuse protects."""
    runs = pack.power.runs if pack.power else ()
    main = pack.power.main_fuse_a if pack.power else None
    for index, run in enumerate(runs[1:]):
        if run.fuse_a is None:
            yield Fault(
                (*parts.job.supply.path, "distribution", "branches", index),
                f"{run.name}, {run.conductor}, has no fuse of its own behind "
                f"{'the main fuse' if main is None else f'{main:g} A'}: in a short the wire burns",
                "put a fuse at the distribution block",
            )


RULE = rule("PWR110", Severity.STOP, Scope.JOB, check, hazard=True)
