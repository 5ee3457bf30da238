"""A measured pin lacks a state that defines it.

What it catches
---------------
A supply, ground, turn-on, illumination or speaker pin with readings of which nobody has yet
measured every state that tells its function from others, for example an accessory wire never
read asleep. What both legs of a pair lack is said once.

Why it matters in the bay
-------------------------
In run, four kinds of wire show the battery. Only the states where they differ prove which
one it is.

Example
-------
Fails::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: accessory, quantity: dc_v, value: 12.4, battery_v: 12.5}

Passes::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 0.0, battery_v: 12.6}
        - {session: s1, state: accessory, quantity: dc_v, value: 12.4, battery_v: 12.5}
        - {session: s1, state: retained, quantity: dc_v, value: 0.0, battery_v: 12.5}

How to mend it
--------------
Take the readings that the finding lists, at the next chance.

Source
------
Common practice, no source: the signature table in the handbook.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import SUPPLIES, Function
from builder.rules.grades import grades_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import called

_JUDGED: frozenset[Function] = SUPPLIES | {"ground", "speaker", "amplifier_on", "illumination"}


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield measured pins with what is still missing for a full proof."""
    said: set[tuple[str, str, tuple[str, ...]]] = set()
    for site, grade in grades_of(vehicle, shelf):
        pin = site.pin
        if not pin.readings or not grade.missing or pin.function not in _JUDGED:
            continue
        of_pair = (site.plug.unit, pin.channel or site.name, grade.missing)
        if of_pair not in said:
            said.add(of_pair)
            yield Fault(
                (*pin.path, "readings"),
                f"{called(site)} was not measured in every state that defines it; "
                f"missing: {'; '.join(grade.missing)}",
                "add these readings at the next chance",
            )


RULE = rule("MET119", Severity.NOTE, Scope.VEHICLE, check, not_known=Severity)
