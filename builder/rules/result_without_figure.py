"""A result that says passed where its line asks for a figure.

What it catches
---------------
A result of the bay sheet with `passed` and no `value`, of a line that asks what the meter reads. Of
a line in ohms that anything open passes, `passed` alone is how an open reading is written. Of
several results of one line the newest counts.

Why it matters in the bay
-------------------------
A figure that nobody wrote down is compared with nothing: not with the band, and not when the car
comes back and the same line reads otherwise.

Example
-------
Fails::

    results: [{test: amp-1-turn-on-key-off, passed: yes, by: alder-pit-audio, date: 2025-05-20}]

Passes::

    results: [{test: amp-1-turn-on-key-off, value: 0.02, by: alder-pit-audio, date: 2025-05-20}]

How to mend it
--------------
Type the figure from the sheet in place of `passed`; where nobody wrote it down, read it again.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.results import newest
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each line's newest result that leaves out the figure that the line asks for."""
    tests = {test.id: test for test in pack.tests}
    for result in newest(parts.job.results).values():
        test = tests.get(result.test)
        if test and result.value is None and result.passed and _asks_figure(test):
            yield Fault(
                (*result.path, "passed"),
                f"{test.id} lacks its figure in {test.unit}: it says only that it passed",
                "type value, as it was written on the sheet, in place of passed",
            )


def _asks_figure(test: BayTest) -> bool:
    """Whether a meter shows a figure there: what is open shows none."""
    open_passes = test.unit == "Ω" and test.high is None
    return bool(test.unit) and not open_passes


RULE = rule("SAF119", Severity.WARN, Scope.JOB, check, not_known=Severity)
