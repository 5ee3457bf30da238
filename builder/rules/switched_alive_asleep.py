"""A switched wire is on while the car sleeps.

What it catches
---------------
An accessory, run, retained or turn-on pin that reads more than 0.5 V **(house default)**
with the car asleep. A reading taken before the car counts as asleep, 20 minutes after
locking **(house default)**, is left to `asleep-too-short`.

Why it matters in the bay
-------------------------
An amplifier switched by this wire never goes off. The battery is flat in a day or two.

Example
-------
Fails::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: asleep, minutes: 30, quantity: dc_v, value: 12.4, battery_v: 12.6}

Passes::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: asleep, minutes: 30, quantity: dc_v, value: 0.02, battery_v: 12.6}

How to mend it
--------------
It is a constant, or sleeps later with the network: measure again after 60 minutes, then type
`constant` or `constant_sleeps`.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.clashes import alive_asleep
from builder.proof.pin_readings import SWITCHED, value_of, while_it
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts

_FOLLOWERS = (*SWITCHED, "amplifier_on", "aerial_on")


@prints("off_max_v", "asleep_min")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield asleep readings of switched wires that show voltage."""
    limit_v = shelf.defaults.off_max_v
    for site in wiring_of(vehicle).having(*_FOLLOWERS):
        for reading in alive_asleep(site.pin, shelf.defaults):
            yield Fault(
                (*reading.path, "value"),
                f"{called(site)} reads {volts(value_of(reading), limit_v)} {while_it(reading)} "
                f"(at most {volts(limit_v)} when off): an amplifier switched by it "
                "empties the battery",
                "measure again after 60 min asleep, then type constant or constant_sleeps",
            )


RULE = rule("MET103", Severity.STOP, Scope.VEHICLE, check, hazard=True)
