"""A housing whose mate does not say so.

What it catches
---------------
A housing that names another under `mates_with` which is not in the book, or which does not name it
in return; and two that name each other and could not go into each other as they are drawn.

Why it matters in the bay
-------------------------
Whether a loom fits is told from `mates_with`. Said on one side only, it is half an observation:
the next record of the other housing contradicts it.

Example
-------
Fails::

    socket-16:   # housings/socket-16.yaml
      mates_with: []
    two-row-16:  # housings/two-row-16.yaml
      mates_with: [socket-16]

Passes::

    socket-16:   # housings/socket-16.yaml
      mates_with: [two-row-16]
    two-row-16:  # housings/two-row-16.yaml
      mates_with: [socket-16]

How to mend it
--------------
Take both in hand. When they go into each other, name each in the record of the other; when a
drawing is wrong, type its rows again as you see them.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.words import UNKNOWN
from builder.planning.looms.mates import mismatches
from builder.rules.rule import Scope, rule
from builder.rules.wording import did_you_mean


def check(housing: Housing, shelf: Shelf) -> Iterator[Fault]:
    """Yield mates that are not there, do not say the same, or are drawn so that they cannot."""
    for index, name in enumerate(housing.mates_with):
        path, mate = ("mates_with", index), shelf.housings.get(name)
        if name == UNKNOWN:
            continue
        if mate is None:
            message = f'there is no housing "{name}" that it could mate with'
            yield Fault(path, message, did_you_mean(name, shelf.housings))
        elif housing.id not in mate.mates_with:
            message = f'"{name}" does not say that it mates with "{housing.id}"'
            yield Fault(path, message, f"type {housing.id} under mates_with of {name}, too")
        elif mate is not housing:
            for why in mismatches(housing, mate):
                message = f'as they are drawn, "{name}" cannot mate with it: {why}'
                yield Fault(path, message, "look at both, and type the rows again as you see them")


RULE = rule("LOM109", Severity.WARN, Scope.PART, check, kinds=("housing",))
