"""Two makes, or two models of a make, that are spelt nearly alike.

What it catches
---------------
A make that differs from another make of the book by case, accents, blanks, dashes or one slip of
the pen, and a model that differs so from another of the same make. Numbers tell names apart.

Why it matters in the bay
-------------------------
Lists, the finder and the check for records of one car go by make and model. A car under a name of
its own is found by nobody, and another shop measures it again.

Example
-------
Fails::

    # brantmoor-leto-2019
    make: Brantmoor
    ---
    # brantmor-leto-2019-wagon
    make: Brantmor

Passes::

    make: Brantmoor
    ---
    make: Brantmoor

How to mend it
--------------
Type the make or model as most records have it, and rename the file where its name has the slip. If
they are two names indeed, `accept` the finding in the record with the reason.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import Literal

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.rules.rule import Scope, rule
from builder.speller import alike_among

_Key = Literal["make", "model"]
_ByName = dict[str, list[VehicleSummary]]


def check(summaries: Sequence[VehicleSummary], shelf: Shelf) -> Iterator[tuple[str, Fault]]:
    """Yield every record of the rarer of two names."""
    makes: defaultdict[str, list[VehicleSummary]] = defaultdict(list)
    for summary in summaries:
        makes[summary.make].append(summary)
    yield from _alike("make", makes)
    for records in makes.values():
        models: defaultdict[str, list[VehicleSummary]] = defaultdict(list)
        for summary in records:
            models[summary.model].append(summary)
        yield from _alike("model", models)


def _alike(key: _Key, by_name: _ByName) -> Iterator[tuple[str, Fault]]:
    for two in alike_among(tuple(by_name)):
        usual, rare = sorted(two, key=lambda name: (-len(by_name[name]), name))
        for summary in by_name[rare]:
            yield summary.id, _fault(key, rare, usual, len(by_name[usual]))


def _fault(key: _Key, rare: str, usual: str, count: int) -> Fault:
    records = "1 record" if count == 1 else f"{count} records"
    return Fault(
        (key,),
        f'{key} "{rare}" is spelt nearly like "{usual}" of {records}: lists and the finder keep '
        "them apart",
        f"type {key}: {usual}; if they are two names indeed, accept PIN131 with the reason",
    )


RULE = rule("PIN131", Severity.WARN, Scope.BOOK, check)
