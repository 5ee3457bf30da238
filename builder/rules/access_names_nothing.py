"""A part comes off behind one that the record has not.

What it catches
---------------
A name in a `behind`, of the radio's removal or of a part of `access`, that no part of `access` has.

Why it matters in the bay
-------------------------
The order of taking apart is made of these names. A part that nobody described is found when the
next one does not move, and then it breaks.

Example
-------
Fails::

    access: [{name: trim ring, kind: panel, uncovers: [radio]}]
    radio: {removal: {steps: [four screws], behind: [trim rign]}}

Passes::

    access: [{name: trim ring, kind: panel, uncovers: [radio]}]
    radio: {removal: {steps: [four screws], behind: [trim ring]}}

How to mend it
--------------
Correct the spelling (the finding names the nearest), or describe the part in `access`.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wording import missing


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield each name in a `behind` that no part has."""
    known = [part.name for part in vehicle.access]
    removal = vehicle.radio.removal
    listed = [(part.path, part.name, part.behind) for part in vehicle.access]
    if removal is not None:
        listed.append((("radio", "removal"), "the radio", removal.behind))
    for path, name, behind in listed:
        for at, before in enumerate(behind):
            if before not in known:
                why = f"nobody knows how to take off what {name} is behind"
                yield missing((*path, "behind", at), "part in access", before, known, why)


RULE = rule("PIN125", Severity.FIX, Scope.RECORD, check)
