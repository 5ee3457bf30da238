"""Two records are about the same car, and agree.

What it catches
---------------
Two records of one make and model to which the same car could belong, whose `how_to_tell` questions
do not tell them apart, and which contradict each other nowhere. Those that do are left to
`scopes-overlap`, plugs that agree once mirrored to `pins-mirrored`.

Why it matters in the bay
-------------------------
Two shops measured one car, each in a record of its own: neither is proved, though both together
would be, and the reader sees half of what is known.

Example
-------
Fails::

    # quern-2018 and quern-base, both written by who did not find the other
    scope: {year_from: 2018, year_to: 2020, trims: [all]}
    ---
    scope: {year_from: 2018, year_to: 2019, trims: [base]}

Passes::

    # one record, with the visits of both
    scope: {year_from: 2018, year_to: 2020, trims: [all]}
    sessions:
      - {id: s1, by: alder-pit-audio}
      - {id: s2, by: harbour-sound}

How to mend it
--------------
`loombook merge A B` shows one record made of both, and with `--write` writes it. Where the cars do
differ, narrow one scope or say in `how_to_tell` by what.

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
from builder.rules.sister_records import (
    by_model,
    contradictions,
    mirrored_plugs,
    one_car,
    told_apart,
)


def check(summaries: Sequence[VehicleSummary], shelf: Shelf) -> Iterator[tuple[str, Fault]]:
    """Yield the later of two records of one car that agree."""
    for group in by_model(summaries):
        for first, second in combinations(group, 2):
            if _is_one(first, second, shelf):
                yield second.id, _fault(first, second)


def _is_one(first: VehicleSummary, second: VehicleSummary, shelf: Shelf) -> bool:
    if not one_car(first, second) or told_apart(first, second):
        return False
    differ = any(contradictions(first, second, shelf))
    return not differ and not mirrored_plugs(first, second, shelf)


def _fault(first: VehicleSummary, second: VehicleSummary) -> Fault:
    return Fault(
        ("scope",),
        f'the same car could belong to "{first.id}" and to this record, and they agree: what both '
        "know stands in neither",
        f"loombook merge {first.id} {second.id} shows one record made of both; if the cars differ, "
        f"narrow one scope, or add how_to_tell with an answer that means {first.id}",
    )


RULE = rule("PIN130", Severity.WARN, Scope.BOOK, check)
