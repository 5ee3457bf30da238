"""Each of several parts comes off before the other.

What it catches
---------------
Parts of `access` whose `behind` lead back to themselves.

Why it matters in the bay
-------------------------
Such a list has no first part: whoever follows it cannot begin, and whoever begins all the same
pulls at something that is still held.

Example
-------
Fails::

    access:
      - {name: strip, kind: panel, uncovers: [vents], behind: [screen frame]}
      - {name: screen frame, kind: panel, uncovers: [radio], behind: [strip]}

Passes::

    access:
      - {name: strip, kind: panel, uncovers: [vents]}
      - {name: screen frame, kind: panel, uncovers: [radio], behind: [strip]}

How to mend it
--------------
Look which of them comes off first on the car, and take the others out of its `behind`.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.findings import Fault, Severity
from builder.model.access import AccessPart
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each circle once, at the part of it that the record names first."""
    known = {part.name: part for part in reversed(vehicle.access)}
    reported: set[str] = set()
    for part in vehicle.access:
        circle = _back_to(part, known)
        if circle and reported.isdisjoint(circle):
            reported.update(circle)
            at = part.behind.index(circle[0])
            chain = ", which comes off after ".join(f'"{name}"' for name in circle)
            yield Fault(
                (*part.path, "behind", at),
                f'"{part.name}" comes off after {chain}: nobody can begin',
                f'if "{part.name}" comes off first, take "{circle[0]}" out of its behind',
            )


def _back_to(part: AccessPart, known: Mapping[str, AccessPart]) -> list[str]:
    """The names that lead from a part back to it, itself last; none where there is no circle."""
    came: dict[str, str] = {}
    wanted = [part]
    while wanted and part.name not in came:
        one = wanted.pop(0)
        fresh = [name for name in one.behind if name in known and name not in came]
        came |= dict.fromkeys(fresh, one.name)
        wanted += [known[name] for name in fresh]
    if part.name not in came:
        return []
    chain = [part.name]
    while came[chain[0]] != part.name:
        chain.insert(0, came[chain[0]])
    return chain


RULE = rule("PIN126", Severity.FIX, Scope.RECORD, check)
