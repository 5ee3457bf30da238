"""Cables that look alike and carry no label.

What it catches
---------------
Two or more pieces of one cable in a job, of which one has no label at an end, or the same
number of bands as another.

Why it matters in the bay
-------------------------
The return of the front left goes on the input of the rear right. Both are brown.

Example
-------
Fails::

    labels:
      - {jacket: cable 1, bands: 1}
      - {jacket: cable 2, bands: 1}

Passes::

    labels:
      - {jacket: cable 1, bands: 1}
      - {jacket: cable 2, bands: 2}

How to mend it
--------------
Label both ends of each before it is pulled in, with a number of bands that can be felt.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.cables.piece_names import cable_name, cables_named
from builder.planning.sheet_rows import Label
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each cable of which several pieces cannot be told apart."""
    for cable, numbers in _jackets(pack).items():
        bands = {n: {each.bands for each in _labels(pack, n)} for n in numbers}
        bare = [number for number in numbers if len(_labels(pack, number)) < 2]
        alike = len({frozenset(each) for each in bands.values()}) < len(numbers)
        if len(numbers) > 1 and (bare or alike):
            index = parts.job.cables.index(cable) if cable in parts.job.cables else 0
            yield Fault(
                ("cables", index),
                f"{cables_named(numbers)} are all {cable} and cannot be told "
                "apart: radio-level and amplified pairs would be swapped",
                "label both ends of each, with a number of bands of its own",
            )


def _jackets(pack: WorkPack) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for row in pack.conductors:
        numbers = found.setdefault(row.cable, [])
        if row.jacket is not None and row.jacket not in numbers:
            numbers.append(row.jacket)
    return found


def _labels(pack: WorkPack, number: int) -> list[Label]:
    return [label for label in pack.labels if label.jacket == cable_name(number)]


RULE = rule("CAB102", Severity.FIX, Scope.JOB, check)
