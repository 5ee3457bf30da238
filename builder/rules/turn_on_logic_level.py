"""The amplifier turn-on is only a logic level.

What it catches
---------------
An `amplifier_on` pin whose highest unloaded reading with the radio on is above 0.5 V but
under 8 V **(house defaults)**, and whose `level_v` does not say so.

Why it matters in the bay
-------------------------
Amplifiers and converters want 9 V or more. On 5 V they switch on with one battery and not
with the next, and their 10 mA may break a pin made for half of it.

Example
-------
Fails::

    - cavity: 11
      function: amplifier_on
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 4.9, battery_v: 12.4}]

Passes::

    - cavity: 11
      function: amplifier_on
      level_v: 5
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 4.9, battery_v: 12.4}]

How to mend it
--------------
Type `level_v: 5` (or 3.3): the plan then asks for a driver. Or take another source.

Source
------
Common practice, no source. The limit is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import LIVE_STATES, exceeds, ground_volts, is_logic_level, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


@prints("logic_level_max_v", "off_max_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield turn-on outputs that never reach 12 V logic."""
    limit_v, off_v = shelf.defaults.logic_level_max_v, shelf.defaults.off_max_v
    for site in wiring_of(vehicle).having("amplifier_on"):
        if is_logic_level(site.pin, shelf.defaults):
            continue
        awake = ground_volts(site.pin, LIVE_STATES["amplifier_on"])
        readings = [reading for reading in awake if reading.load == "none"]
        highest = max(readings, key=value_of, default=None)
        if highest is None or not exceeds(value_of(highest), off_v):
            continue
        if exceeds(limit_v, value_of(highest)):
            yield Fault(
                (*highest.path, "value"),
                f"{called(site)} reads at most {volts(value_of(highest), limit_v)} with the "
                "radio on "
                f"(under {volts(limit_v)} it is logic level): amplifiers want 9 V and more",
                "type level_v: 5 or 3.3 so that the plan asks for a driver",
            )


RULE = rule("MET115", Severity.FIX, Scope.VEHICLE, check)
