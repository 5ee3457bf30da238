"""A cavity that the housing does not have.

What it catches
---------------
A pin, or an entry of `empty`, whose cavity is not drawn in the plug's housing record.

Why it matters in the bay
-------------------------
A cavity that cannot exist means that the plug was mistaken for another, or that somebody
counted from the wrong corner: every other number of that plug is then in doubt.

Example
-------
Fails::

    # housing "two-row-8" has cavities 1 to 8
    plugs:
      - {id: A, housing: two-row-8, pins: [{cavity: 17, function: ground}]}

Passes::

    plugs:
      - {id: A, housing: two-row-8, pins: [{cavity: 7, function: ground}]}

How to mend it
--------------
Look at the plug again: correct the cavity, name the right housing, or complete the rows of
the housing record.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Plug
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield every cavity named in a plug that its housing does not draw."""
    for plug in vehicle.plugs:
        housing = shelf.housings.get(plug.housing)
        if housing is None:
            continue
        known = frozenset(housing.cavities)
        for cavity, path in _named_cavities(plug):
            if cavity not in known:
                yield Fault(
                    path,
                    f'housing "{housing.id}" of plug "{plug.id}" has no cavity "{cavity}": '
                    f"it has {len(known)}, from {housing.cavities[0]} to {housing.cavities[-1]}; "
                    "the plug may be another one, or counted from the wrong corner",
                    "correct the cavity, or name the housing that has it",
                )


def _named_cavities(plug: Plug) -> Iterator[tuple[str, DataPath]]:
    for pin in plug.pins:
        yield pin.cavity, (*pin.path, "cavity")
    for index, cavity in enumerate(plug.empty):
        yield cavity, (*plug.path, "empty", index)


RULE = rule("PIN102", Severity.STOP, Scope.VEHICLE, check)
