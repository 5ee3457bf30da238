"""A job uses one name twice.

What it catches
---------------
Two amplifiers, two speakers, or an amplifier and a speaker of one job with the same name.

Why it matters in the bay
-------------------------
The label, the gain and the fuse of the one are read for the other.

Example
-------
Fails::

    amplifiers:
      - {name: amp 1, part: amn-4, place: left luggage side}
      - {name: amp 1, part: amn-600, place: right luggage side}

Passes::

    amplifiers:
      - {name: door amp, part: amn-4, place: left luggage side}
      - {name: sub amp, part: amn-600, place: right luggage side}

How to mend it
--------------
Give each its own name, and correct what refers to it.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.job import Job
from builder.rules.rule import Scope, rule


def check(job: Job) -> Iterator[Fault]:
    """Yield every name of an amplifier or speaker that another of the job has too."""
    seen: set[str] = set()
    named = [(each.name, each.path) for each in job.amplifiers]
    named += [(each.name, each.path) for each in job.speakers]
    for name, path in named:
        if name in seen:
            yield Fault(
                (*path, "name"),
                f'"{name}" is the name of two things of this job: their labels and gains would '
                "be mixed up",
                "give each a name of its own",
            )
        seen.add(name)


RULE = rule("TOP102", Severity.FIX, Scope.RECORD, check, kinds=("job",))
