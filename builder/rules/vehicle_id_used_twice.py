"""Two vehicle records have one id.

What it catches
---------------
Two vehicle records of the book, in different folders, with the same id.

Why it matters in the bay
-------------------------
A link, a printed sheet and a saved tick list all name a record by its id. With two, the
sheet in the hand may be of the other car.

Example
-------
Fails::

    # vehicles/brantmoor/leto.yaml
    id: leto
    ---
    # vehicles/old/leto.yaml
    id: leto

Passes::

    # vehicles/brantmoor/leto-2016.yaml
    id: leto-2016
    ---
    # vehicles/brantmoor/leto-2019.yaml
    id: leto-2019

How to mend it
--------------
Rename one of them, file and id, and correct the answers under `how_to_tell` that name it. A
private record that is meant to stand in the place of a shared one, or an own one in that of a
borrowed one, says so with `replaces`, and gives the reason.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.summary import VehicleSummary
from builder.rules.rule import Scope, rule


def check(summaries: Sequence[VehicleSummary], shelf: Shelf) -> Iterator[tuple[str, Fault]]:
    """Yield every summary whose id an earlier one has."""
    files: dict[str, str] = {}
    for summary in summaries:
        if summary.id in files:
            yield (
                summary.id,
                Fault(
                    ("id",),
                    f'id "{summary.id}" is used by {files[summary.id]} and by {summary.file}: '
                    "links and printed sheets could mean either",
                    "rename one of the two, file and id; a private record that is meant to stand "
                    "in for a shared one, or an own one for a borrowed one, says: replaces: "
                    f"{{id: {summary.id}, reason: why}}",
                ),
            )
        files.setdefault(summary.id, summary.file)


RULE = rule("PIN113", Severity.STOP, Scope.BOOK, check)
