"""The two legs of a pair do not run together.

What it catches
---------------
A pair whose legs lie in different jackets or different pairs of a cable, or a conductor that is
listed twice.

Why it matters in the bay
-------------------------
Between the legs lies a loop that catches the alternator. And whoever repairs it looks in the
wrong jacket.

Example
-------
Fails::

    conductors:
      - {jacket: 1, place: pair 1 positive, purpose: front left +}
      - {jacket: 2, place: pair 1 negative, purpose: front left -}

Passes::

    conductors:
      - {jacket: 1, place: pair 1 positive, purpose: front left +}
      - {jacket: 1, place: pair 1 negative, purpose: front left -}

How to mend it
--------------
Give the pair one pair of one jacket.

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
    """Yield what the planner found of it."""
    for flag in flags_of(pack, "pair_split", "conductor_twice"):
        yield Fault(
            ("cables",),
            f"{flag.where}: {flag.says}",
            "give the pair one pair of one cable",
        )


RULE = rule("CAB106", Severity.FIX, Scope.JOB, check)
