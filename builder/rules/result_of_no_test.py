"""A result for a line that is not on the sheet.

What it catches
---------------
A result under a name that no line of the job's bay sheet has.

Why it matters in the bay
-------------------------
The line that it was meant for counts as not done.

Example
-------
Fails::

    results: [{test: batery-rest, value: 12.4, by: alder-pit-audio, date: 2025-05-20}]

Passes::

    results: [{test: battery-rest, value: 12.4, by: alder-pit-audio, date: 2025-05-20}]

How to mend it
--------------
Type the name as it is printed on the sheet.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule
from builder.rules.wording import did_you_mean


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each result of an unknown test; nothing while the pack has no sheet."""
    known = [test.id for test in pack.tests]
    for result in parts.job.results:
        if known and result.test not in known:
            yield Fault(
                (*result.path, "test"),
                f'there is no test "{result.test}" on the sheet of this job',
                did_you_mean(result.test, known),
            )


RULE = rule("SAF107", Severity.FIX, Scope.JOB, check)
