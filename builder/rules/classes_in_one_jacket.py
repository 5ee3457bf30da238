"""Radio-level and amplified sound in one jacket.

What it catches
---------------
A jacket whose conductors carry signal before the amplifier and sound behind it.

Why it matters in the bay
-------------------------
What comes out couples into what goes in: a howl at high gain. And a swap is one wrong colour
away.

Example
-------
Fails::

    conductors:
      - {jacket: 1, purpose: front left signal}
      - {jacket: 1, purpose: front left to its speaker}

Passes::

    conductors:
      - {jacket: 1, purpose: front left signal}
      - {jacket: 2, purpose: front left to its speaker}

How to mend it
--------------
Give each class its own jacket.

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
    for flag in flags_of(pack, "classes_mixed"):
        yield Fault(
            ("cables",),
            f"{flag.where}: {flag.says}, which couple into each other",
            "give each class a cable of its own",
        )


RULE = rule("CAB103", Severity.WARN, Scope.JOB, check)
