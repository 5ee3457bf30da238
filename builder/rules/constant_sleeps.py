"""A constant that goes to sleep.

What it catches
---------------
A pin called `constant` that reads less than 1 V **(house default)** with the car asleep.

Why it matters in the bay
-------------------------
Many cars cut supplies when their network sleeps, 10 to 60 minutes after locking. A
converter or memory fed from such a wire forgets everything each night; taken for a turn-on
wire it keeps the amplifier on long after every unlock.

Example
-------
Fails::

    - cavity: 1
      function: constant
      readings:
        - {session: s1, state: asleep, minutes: 35, quantity: dc_v, value: 0.2, battery_v: 12.6}

Passes::

    - cavity: 1
      function: constant
      readings:
        - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 12.6, battery_v: 12.6}

How to mend it
--------------
Type `function: constant_sleeps`, and look for a true constant on another cavity.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.clashes import gone_to_sleep
from builder.proof.pin_readings import value_of, while_it
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


@prints("slept_max_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield asleep readings of constants that show nothing."""
    limit_v = shelf.defaults.slept_max_v
    for site in wiring_of(vehicle).having("constant"):
        for reading in gone_to_sleep(site.pin, shelf.defaults):
            yield Fault(
                (*reading.path, "value"),
                f"{called(site)} reads {volts(value_of(reading), limit_v)} {while_it(reading)} "
                f"(at least {volts(limit_v)}, and near the battery, is expected): it sleeps "
                "with the network and is no constant",
                "type function: constant_sleeps, and look for a true constant elsewhere",
            )


RULE = rule("MET102", Severity.STOP, Scope.VEHICLE, check, hazard=True)
