"""A result that is outside its band.

What it catches
---------------
A result of the bay sheet whose figure lies outside the expected band, or that did not pass. Of
several results of one line the newest counts, and of one day the last: it was tested again. A band
that moves with the battery is that of the `battery_v` read beside the figure; a result without it
is judged at the house default for a battery at rest.

Why it matters in the bay
-------------------------
It was seen, written down and left.

Example
-------
Fails::

    results:       # at most 0.1
      - {test: amp-1-ground-rise, value: 0.92, by: alder-pit-audio, date: 2025-05-20}

Passes::

    results: [{test: amp-1-ground-rise, value: 0.02, by: alder-pit-audio, date: 2025-05-20}]

How to mend it
--------------
Find the cause, mend it, test again, and add the new result behind the old one. Where only the
battery was not written down, add `battery_v`.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import at_least, at_most, shown, within
from builder.findings import Fault, Severity
from builder.model.house_defaults import HouseDefaults
from builder.model.job import Result
from builder.model.results import newest
from builder.planning.bay.judged import JudgedResult, judge_result
from builder.planning.work_pack import BayTest, JobParts, WorkPack
from builder.proof.band import limit_at
from builder.rules.result_without_battery import taken_note
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each result that its test does not allow."""
    tests = {test.id: test for test in pack.tests}
    for result in newest(parts.job.results).values():
        test = tests.get(result.test)
        if test is None:
            continue
        judged = judge_result(result, test, parts.shelf.defaults)
        if result.passed is False or judged.outside:
            yield _fault(result, test, judged, parts.shelf.defaults)


def _fault(result: Result, test: BayTest, judged: JudgedResult, defaults: HouseDefaults) -> Fault:
    key = "passed" if result.value is None else "value"
    read = "did not pass" if result.value is None else _read(test, result.value, judged)
    help_text = "find the cause, mend it, and test again"
    if judged.taken and judged.outside:
        help_text += "; or add the battery_v that was read beside it"
    return Fault(
        (*result.path, key),
        f"{test.id} {read} ({_band(test, judged)}): it was left as it is"
        f"{taken_note(defaults) if judged.taken else ''}",
        help_text,
    )


def _limits(test: BayTest, judged: JudgedResult) -> tuple[float | None, float | None]:
    """The limits as figures, at the battery volts or amperes that the result was judged at."""
    if judged.current_a is not None:
        return None, test.high_mohm
    at_v = judged.battery_v or 0.0
    low, high = (None if each is None else limit_at(each, at_v) for each in test.band)
    return low, high


def _read(test: BayTest, value: float, judged: JudgedResult) -> str:
    limits = [limit for limit in _limits(test, judged) if limit is not None]
    if judged.current_a is not None:
        volts, mohm = shown(value), shown(1000 * value / judged.current_a, 1, beside=limits)
        return f"is {volts} V at {shown(judged.current_a)} A, {mohm} mΩ"
    return f"is {shown(value, beside=limits)} {test.unit}"


def _band(test: BayTest, judged: JudgedResult) -> str:
    low, high = _limits(test, judged)
    if high is not None and judged.current_a is not None:
        return f"at most {at_most(high, 'mΩ')} mΩ"
    beside = "" if judged.battery_v is None else f" with the battery at {shown(judged.battery_v)} V"
    if low is None and high is None:
        return "yes is expected"
    return f"{_ends(low, high, test.unit)} {test.unit}{beside}"


def _ends(low: float | None, high: float | None, unit: str) -> str:
    if low is not None and high is not None:
        return " to ".join(within(low, high, unit))
    if low is not None:
        return f"at least {at_least(low, unit)}"
    return "" if high is None else f"at most {at_most(high, unit)}"


RULE = rule("SAF106", Severity.FIX, Scope.JOB, check)
