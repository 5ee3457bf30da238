"""A result that is outside its band.

What it catches
---------------
A result of the bay sheet whose figure lies outside the expected band, or that did not pass. Of
several results of one line the newest counts, and of one day the last: it was tested again.

Why it matters in the bay
-------------------------
It was seen, written down and left.

Example
-------
Fails::

    results:       # at most 0.1
      - {test: amp-1-ground-rise, value: 0.92, by: northgate-audio, date: 2025-05-20}

Passes::

    results: [{test: amp-1-ground-rise, value: 0.02, by: northgate-audio, date: 2025-05-20}]

How to fix
----------
Find the cause, mend it, test again, and add the new result behind the old one.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.results import newest
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.rules.rule import Rule, Scope


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each result that its test does not allow."""
    tests = {test.id: test for test in pack.tests}
    for result in newest(parts.job.results).values():
        test = tests.get(result.test)
        if test is None:
            continue
        key = "passed" if result.value is None else "value"
        if result.passed is False or _outside(test, result.value):
            read = "did not pass" if result.value is None else _read(test, result.value)
            yield Fault(
                (*result.path, key),
                f"{test.id} {read} ({_band(test)}): it was left as it is",
                "find the cause, mend it, and test again",
            )


def _outside(test: BayTest, value: float | None) -> bool:
    if value is None:
        return False
    below = test.low is not None and value < test.low
    return below or (test.high is not None and value > test.high)


def _read(test: BayTest, value: float) -> str:
    limits = [limit for limit in (test.low, test.high) if limit is not None]
    return f"is {shown(value, beside=limits)} {test.unit}"


def _band(test: BayTest) -> str:
    if test.low is None and test.high is None:
        return "yes is expected"
    if test.low is None:
        return f"at most {shown(test.high)} {test.unit}"
    if test.high is None:
        return f"at least {shown(test.low)} {test.unit}"
    return f"{shown(test.low)} to {shown(test.high)} {test.unit}"


RULE = Rule(
    id="SAF106",
    slug="result-outside-band",
    severity=Severity.FIX,
    scope=Scope.JOB,
    check=check,
    title="A result that is outside its band",
)
