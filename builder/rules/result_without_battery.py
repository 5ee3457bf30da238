"""A result whose battery volts nobody wrote down.

What it catches
---------------
A figure of the bay sheet whose band moves with the battery, without the battery volts that were
read beside it.

Why it matters in the bay
-------------------------
With a supporter on the battery a sound supply reads 13.4 V, on a tired one 12.05 V. Both are in
order beside their battery, and neither can be told from a fault without it.

Example
-------
Fails::

    results: [{test: b-1-acc, value: 12.4, by: alder-pit-audio, date: 2025-05-20}]

Passes::

    results: [{test: b-1-acc, value: 12.4, battery_v: 12.6, by: alder-pit-audio, date: 2025-05-20}]

How to mend it
--------------
Add `battery_v` where it was written down; read both again where it was not.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.house_defaults import HouseDefaults
from builder.model.results import newest
from builder.planning.bay.judged import judge_result
from builder.planning.work_pack import JobParts, WorkPack
from builder.proof.house import house_note
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each line's newest result that had to be judged at a battery nobody read."""
    tests = {test.id: test for test in pack.tests}
    defaults = parts.shelf.defaults
    for result in newest(parts.job.results).values():
        test = tests.get(result.test)
        judged = judge_result(result, test, defaults) if test else None
        if judged and judged.taken and not judged.outside:
            yield Fault(
                (*result.path, "value"),
                f"{result.test} has no battery volts beside it{taken_note(defaults)}",
                "add battery_v: what the battery's own posts read at that moment",
            )


def taken_note(defaults: HouseDefaults) -> str:
    """Say at which battery such a result is judged; it ends a message."""
    return (
        f"; it was judged as with a battery of {defaults.resting_battery_v:g} V "
        f"[{house_note(('resting_battery_v',), defaults)}]"
    )


RULE = rule("SAF112", Severity.NOTE, Scope.JOB, check, not_known=Severity)
