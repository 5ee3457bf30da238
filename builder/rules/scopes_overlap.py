"""Two records cover the same car and disagree.

What it catches
---------------
Two records of one make and model to which the same car could belong, whose pins contradict
each other in a plug of the same name and housing, and whose `how_to_tell` questions do not
tell them apart. Plugs that agree once mirrored are left to `pins-mirrored`.

Why it matters in the bay
-------------------------
The reader opens one of the two and never learns of the other. Half of the cars of that
model get the wrong pin.

Example
-------
Fails::

    # quern-2018: 2018 to 2020, all trims
    scope: {year_from: 2018, year_to: 2020, trims: [all]}
    ---
    # quern-2019-sport: other pins, and also covered by quern-2018
    scope: {year_from: 2019, year_to: 2019, trims: [sport]}

Passes::

    # quern-2018: 2018 to 2020, without the sport trim
    scope: {year_from: 2018, year_to: 2020, trims: [base, comfort]}
    ---
    # quern-2019-sport
    scope: {year_from: 2019, year_to: 2019, trims: [sport]}

How to mend it
--------------
Find what tells the cars apart (trim, option, build month, drive side) and narrow one scope,
or add a `how_to_tell` question whose answer names the other record.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.rules.rule import Scope, rule
from builder.rules.sister_records import by_model, contradictions, one_car, told_apart


def check(summaries: Sequence[VehicleSummary], shelf: Shelf) -> Iterator[tuple[str, Fault]]:
    """Yield the later of two records that disagree about one car."""
    for group in by_model(summaries):
        for first, second in combinations(group, 2):
            if not one_car(first, second) or told_apart(first, second):
                continue
            clashing = list(contradictions(first, second, shelf))
            if clashing:
                yield second.id, _fault(first, second, clashing)


def _fault(first: VehicleSummary, second: VehicleSummary, clashing: list[str]) -> Fault:
    named = ", ".join(sorted(clashing)[:4])
    return Fault(
        ("scope",),
        f'the same car could belong to "{first.id}" and to this record, and they disagree in '
        f"{len(clashing)} cavities ({named}): its reader gets one of two answers",
        f"narrow one scope, or add how_to_tell with an answer that means {first.id}",
        also=(first.id,),
    )


RULE = rule("PIN109", Severity.STOP, Scope.BOOK, check)
