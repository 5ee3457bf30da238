"""A supply reads low and was never loaded.

What it catches
---------------
A supply that reads more than 0.3 V **(house default)** under the battery with nothing drawn,
and of which no reading under load exists.

Why it matters in the bay
-------------------------
A good supply with no load shows the battery exactly. A little less means that the voltage
leaks in from somewhere else through a high resistance; the first milliamperes take it away.

Example
-------
Fails::

    - cavity: 2
      function: accessory
      readings: [{session: s1, state: accessory, quantity: dc_v, value: 11.2, battery_v: 12.4}]

Passes::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: accessory, quantity: dc_v, value: 11.2, battery_v: 12.4}
        - {session: s1, state: run, load: 1a, quantity: dc_v, value: 12.1, battery_v: 12.4}

How to mend it
--------------
Repeat the reading with a 0.4 A lamp or 1 A, within the fuse, and add it.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.model.words import SUPPLIES
from builder.proof.pin_readings import LIVE_STATES, exceeds, ground_volts, is_on, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


@prints("supply_match_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield low unloaded readings of supplies that nobody loaded."""
    limit_v = shelf.defaults.supply_match_v
    for site in wiring_of(vehicle).having(*SUPPLIES):
        live = list(ground_volts(site.pin, LIVE_STATES[site.pin.function]))
        if any(reading.load != "none" for reading in live):
            continue
        for reading in live:
            if is_on(reading) and exceeds(_short_of_battery_v(reading), limit_v):
                yield Fault(
                    (*reading.path, "value"),
                    f"{called(site)} reads {volts(value_of(reading))} with nothing drawn, "
                    f"{volts(_short_of_battery_v(reading), limit_v)} under the battery (at most "
                    f"{volts(limit_v)}), and nobody put a load on it: it may collapse",
                    "repeat it with load: lamp_0.4a or 1a, within the fuse, and add the reading",
                )


def _short_of_battery_v(reading: Reading) -> float:
    return 0.0 if reading.battery_v is None else reading.battery_v - value_of(reading)


RULE = rule("MET118", Severity.WARN, Scope.VEHICLE, check, not_known=Severity)
