"""The parked car draws more than before.

What it catches
---------------
A result for the parked draw that lies more than 5 mA above the reading taken before work began
(a stop), or above 50 mA (convention, a warning). Of several results of one line the newest
counts.

Why it matters in the bay
-------------------------
Something stays awake. The battery is flat after the holidays.

Example
-------
Fails::

    supply: {parked_ma: 24}
    results: [{test: parked-after, value: 920, by: alder-pit-audio, date: 2025-05-20}]     # mA

Passes::

    supply: {parked_ma: 24}
    results: [{test: parked-after, value: 26, by: alder-pit-audio, date: 2025-05-20}]

How to mend it
--------------
Pull the new fuses one by one until the draw falls, find what keeps that branch awake, and add the
new result behind the old one.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import DataPath, Fault, Severity
from builder.model.results import newest
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.rules.rule import Scope, rule

MORE_THAN_BEFORE_MA = 5.0
MUCH_MA = 50.0
"""Increase that stops, and draw that is flagged. Common practice, no source. [mA]"""


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the parked car draws too much at the end of the job."""
    tests = {test.id: test for test in pack.tests if _is_parked(test)}
    before = parts.job.supply.parked_ma
    for result in newest(parts.job.results).values():
        if result.test in tests and result.value is not None:
            draw = result.value * (1000 if tests[result.test].unit == "A" else 1)
            yield from _too_much((*result.path, "value"), draw, before)


def _too_much(path: DataPath, draw_ma: float, before_ma: float | None) -> Iterator[Fault]:
    if before_ma is not None and draw_ma > before_ma + MORE_THAN_BEFORE_MA:
        more = shown(draw_ma - before_ma, beside=MORE_THAN_BEFORE_MA)
        yield Fault(
            path,
            f"parked, the car draws {shown(draw_ma)} mA, {more} mA more than before work began "
            f"(at most {shown(MORE_THAN_BEFORE_MA)} mA): something stays awake",
            "pull the new fuses one by one until it falls",
        )
    elif draw_ma > MUCH_MA:
        yield Fault(
            path,
            f"parked, the car draws {shown(draw_ma, beside=MUCH_MA)} mA (more than "
            f"{shown(MUCH_MA)} mA is unusual)",
            "look whether the car itself was asleep",
            Severity.WARN,
        )


def _is_parked(test: BayTest) -> bool:
    current = test.unit in ("mA", "A")
    return current and test.phase == "close" and "asleep" in f"{test.state} {test.what}".lower()


RULE = rule("SAF110", Severity.STOP, Scope.JOB, check, hazard=True)
