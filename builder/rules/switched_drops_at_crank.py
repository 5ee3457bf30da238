"""A switched wire drops while the starter turns.

What it catches
---------------
A switched or turn-on pin that reads under 6 V **(house default)** at crank or at an
automatic restart, in a car that has start-stop or of which that is unknown.

Why it matters in the bay
-------------------------
In a start-stop car the engine restarts at every light. Each time the amplifier drops out
and comes back with a thump.

Example
-------
Fails::

    # features: {start_stop: "yes"}
    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: crank, quantity: dc_v, value: 0.2, battery_v: 9.8}

Passes::

    # features: {start_stop: "yes"}
    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: crank, quantity: dc_v, value: 9.4, battery_v: 9.8}

How to mend it
--------------
Nothing in the record. The plan has to hold the turn-on wire up for the length of the
restart, or take another source; note how long the drop lasts.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import SWITCHED, exceeds, ground_volts, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


@prints("crank_alive_min_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield starter readings of switched wires that fall away."""
    if vehicle.features.start_stop == "no":
        return
    limit_v = shelf.defaults.crank_alive_min_v
    for site in wiring_of(vehicle).having(*SWITCHED, "amplifier_on"):
        for reading in ground_volts(site.pin, ("crank", "auto_restart")):
            if exceeds(limit_v, value_of(reading)):
                yield Fault(
                    (*reading.path, "value"),
                    f"{called(site)} falls to {volts(value_of(reading), limit_v)} while the "
                    "starter turns "
                    f"(under {volts(limit_v)} it counts as lost): with start-stop the amplifier "
                    "drops out at every restart",
                    "note how long it lasts; the plan needs a hold-up or another source",
                )


RULE = rule("MET107", Severity.NOTE, Scope.VEHICLE, check)
