"""An accessory wire is dead in accessory.

What it catches
---------------
An accessory or retained pin that reads under 0.5 V **(house default)** in the accessory
position and carries voltage in run.

Why it matters in the bay
-------------------------
It is the run wire. The radio plays with the key in accessory, the new amplifier does not,
and the customer is back next day.

Example
-------
Fails::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: accessory, quantity: dc_v, value: 0.0, battery_v: 12.4}
        - {session: s1, state: run, quantity: dc_v, value: 12.3, battery_v: 12.4}

Passes::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: accessory, quantity: dc_v, value: 12.3, battery_v: 12.4}
        - {session: s1, state: run, quantity: dc_v, value: 12.3, battery_v: 12.4}

How to mend it
--------------
Type `function: run`, and look for the accessory wire on another cavity.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import exceeds, ground_volts, is_on, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


@prints("off_max_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield accessory readings of nothing where run gives the battery."""
    limit_v = shelf.defaults.off_max_v
    for site in wiring_of(vehicle).having("accessory", "retained"):
        running = next(filter(is_on, ground_volts(site.pin, ("run",))), None)
        if running is None:
            continue
        for reading in ground_volts(site.pin, ("accessory",)):
            if not exceeds(value_of(reading), limit_v):
                yield Fault(
                    (*reading.path, "value"),
                    f"{called(site)} reads {volts(value_of(reading), limit_v)} in accessory "
                    f"(at most {volts(limit_v)} is off) and {volts(value_of(running))} in run: "
                    "an amplifier on it stays silent while the radio plays in accessory",
                    "type function: run, and look for the accessory wire elsewhere",
                )


RULE = rule("MET106", Severity.WARN, Scope.VEHICLE, check)
