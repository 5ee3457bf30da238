"""The car went out before the bay sheet was done.

What it catches
---------------
A follow-up, or a result of the closing phase, in a job whose build and bench tests are not all
filled in: an insulation test, a polarity, the fader map. A line that came onto sheets after the
car was closed is not asked for.

Why it matters in the bay
-------------------------
The trim comes off again: one and a half to three hours, and broken clips.

Example
-------
Fails::

    results: []
    follow_up: [{date: 2025-06-01, outcome: no fault}]

Passes::

    results: [{test: balance-and-fader, passed: yes, by: alder-pit-audio, date: 2025-05-20}]
    follow_up: [{date: 2025-06-01, outcome: no fault}]

How to mend it
--------------
Do the open lines of the sheet, and write them down.

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
    """Yield a fault for a closed job with open or failed bench tests."""
    job = parts.job
    done = {result.test for result in job.results}
    closed = any(test.phase == "close" and test.id in done for test in pack.tests)
    if not job.follow_up and not closed:
        return
    days = [*(result.date for result in job.results), *(said.date for said in job.follow_up)]
    last = max(days, default="")
    bench = [test for test in pack.tests if test.phase in ("build", "bench") and test.since <= last]
    left = [test.id for test in bench if test.id not in done]
    if left:
        yield Fault(
            ("follow_up",) if job.follow_up else ("results",),
            f"the car was closed with {len(left)} of {len(bench)} tests of build and bench open "
            f"({', '.join(left[:6])}{' …' if len(left) > 6 else ''})",
            "do them and write down what came of them",
        )


RULE = rule("SAF105", Severity.STOP, Scope.JOB, check)
