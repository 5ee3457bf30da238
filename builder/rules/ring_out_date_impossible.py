"""A ring-out of a day that has not come.

What it catches
---------------
A ring-out dated after the day that the book is checked for.

Why it matters in the bay
-------------------------
Whoever goes by it believes in a measurement that nobody can have made; with the date, its year or
month is wrong, and which loom was measured is in doubt.

Example
-------
Fails::

    # loombook check --as-of 2024-06-01
    ring_out: {by: alder-pit-audio, date: 2025-05-13, result: passed}

Passes::

    # loombook check --as-of 2024-06-01
    ring_out: {by: alder-pit-audio, date: 2024-05-13, result: passed}

How to mend it
--------------
Correct the date, or ring the loom out again.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.parts import Loom
from builder.rules.rule import Scope, rule


def check(loom: Loom, shelf: Shelf) -> Iterator[Fault]:
    """Yield a ring-out after the day the book is checked for."""
    done = loom.ring_out
    if done is not None and shelf.as_of and done.date > shelf.as_of:
        yield Fault(
            ("ring_out", "date"),
            f"the ring-out is of {done.date}, after {shelf.as_of}, the day the book is checked for",
            "correct the date",
        )


RULE = rule("LOM112", Severity.FIX, Scope.PART, check, kinds=("loom",))
