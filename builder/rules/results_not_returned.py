"""A finished job whose readings did not come back.

What it catches
---------------
A job with a follow-up and no results.

Why it matters in the bay
-------------------------
What was measured on this car would have proved the pins for the next one.

Example
-------
Fails::

    results: []
    follow_up: [{date: 2025-06-01, outcome: no fault}]

Passes::

    results: [{test: battery-rest, value: 12.4, by: alder-pit-audio, date: 2025-05-20}]
    follow_up: [{date: 2025-06-01, outcome: no fault}]

How to mend it
--------------
Type the filled-in sheet under results.

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
    """Yield a note for a job that was heard of and never filled in."""
    if job.follow_up and not job.results:
        yield Fault(
            ("follow_up",),
            "the job is done and none of its readings came back: the next car starts from zero",
            "type the filled-in bay sheet under results",
        )


RULE = rule("SAF109", Severity.NOTE, Scope.RECORD, check, kinds=("job",), not_known=Severity)
