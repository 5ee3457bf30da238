"""A cavity declared empty is described.

What it catches
---------------
A pin whose cavity stands in the plug's `empty` list, or is moulded shut in the housing, and
which still claims a function or a wire.

Why it matters in the bay
-------------------------
One of the two is wrong. Somebody will look for a wire that is not there, or will take an
unlisted wire for a spare.

Example
-------
Fails::

    empty: [9]
    pins:
      - {cavity: 9, function: mute}

Passes::

    empty: [9]
    pins:
      - {cavity: 8, function: mute}

How to mend it
--------------
Look into the plug, take a photo, and delete either the entry of `empty` or the pin.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wording import function_words


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield every pin that claims something of a cavity without a terminal."""
    for plug in vehicle.plugs:
        housing = shelf.housings.get(plug.housing)
        blocked = housing.blocked if housing else ()
        if not plug.empty and not blocked:
            continue
        for pin in plug.pins:
            if _claims_something(pin) and (pin.cavity in plug.empty or pin.cavity in blocked):
                said = "listed as empty" if pin.cavity in plug.empty else "moulded shut"
                yield Fault(
                    (*pin.path, "cavity"),
                    f"{plug.id}.{pin.cavity} is {said}, but is described as "
                    f"{function_words(pin.function)}: one of the two is wrong",
                    f"look into plug {plug.id}, then delete this entry or correct `empty`",
                )


def _claims_something(pin: Pin) -> bool:
    return pin.function != "not_used" or pin.wire is not None


RULE = rule("PIN103", Severity.FIX, Scope.VEHICLE, check)
