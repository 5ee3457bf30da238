"""The parked car draws more than before.

What it catches
---------------
A result for the parked draw that lies above the reading taken before work began by more than
what is fitted may add (a stop), or above 50 mA (convention, a warning). Each device may add what
its record gives, 2.5 mA where that is silent, and all of it at least 5 mA **(house defaults)**. Of
several results of one line the newest counts; before work began it is the result of
`parked-before`, or `parked_ma`.

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
from builder.planning.bay.bands import PARKED_MAX_MA
from builder.planning.power.asleep_draws import PARKED_SECOND, parked_after_ma, parked_before_ma
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield what the parked car draws too much at the end of the job."""
    tests = {test.id: test for test in pack.tests if _is_parked(test)}
    before = parked_before_ma(parts.job)
    most = parked_after_ma(parts, pack.plan.turn_on, parts.shelf.defaults)
    for result in newest(parts.job.results).values():
        if result.test in tests and result.value is not None:
            draw = result.value * (1000 if tests[result.test].unit == "A" else 1)
            yield from _too_much((*result.path, "value"), draw, before, most)


def _too_much(
    path: DataPath, draw_ma: float, before_ma: float | None, most_ma: float | None
) -> Iterator[Fault]:
    if before_ma is not None and most_ma is not None and draw_ma > most_ma:
        allowed_ma = most_ma - before_ma
        more = shown(draw_ma - before_ma, beside=allowed_ma)
        yield Fault(
            path,
            f"parked, the car draws {shown(draw_ma)} mA, {more} mA more than before work began "
            f"(at most {shown(allowed_ma)} mA): something stays awake",
            "pull the new fuses one by one until it falls",
        )
    elif draw_ma > PARKED_MAX_MA:
        yield Fault(
            path,
            f"parked, the car draws {shown(draw_ma, beside=PARKED_MAX_MA)} mA (more than "
            f"{shown(PARKED_MAX_MA)} mA is unusual)",
            "look whether the car itself was asleep",
            Severity.WARN,
        )


def _is_parked(test: BayTest) -> bool:
    current = test.unit in ("mA", "A")
    own = test.id != PARKED_SECOND  # of another battery, against its own band
    return (
        own
        and current
        and test.phase == "close"
        and "asleep" in f"{test.state} {test.what}".lower()
    )


RULE = rule("SAF110", Severity.STOP, Scope.JOB, check, hazard=True)
