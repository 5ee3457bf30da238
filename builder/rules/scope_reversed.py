"""A scope that ends before it begins.

What it catches
---------------
A vehicle record whose last model year is before its first, or whose last month of build is before
its first. One and the same year or month for both is right: the record is about that one.

Why it matters in the bay
-------------------------
No car lies between the two, so the record answers for none: whoever asks for their year does not
find it, and a job with a year is refused by it.

Example
-------
Fails::

    scope: {year_from: 2019, year_to: 2016}

Passes::

    scope: {year_from: 2016, year_to: 2019}

How to mend it
--------------
Look which of the two is mistyped; when both are right, change their places.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the end of a span of years or months that lies before its beginning."""
    scope = vehicle.scope
    if scope.year_to < scope.year_from:
        yield _fault("year", "model year", str(scope.year_from), str(scope.year_to))
    built = (scope.build_from, scope.build_to)
    if built[0] is not None and built[1] is not None and built[1] < built[0]:
        yield _fault("build", "month of build", built[0], built[1])


def _fault(key: str, what: str, begins: str, ends: str) -> Fault:
    return Fault(
        ("scope", f"{key}_to"),
        f"the last {what} is {ends}, before the first, {begins}: no car is of this record",
        f"correct {key}_from or {key}_to; when both are right, change their places",
    )


RULE = rule("PIN122", Severity.FIX, Scope.RECORD, check)
