"""A switched wire follows the lights.

What it catches
---------------
An accessory, run, retained, constant or turn-on pin whose voltage changes by more than 1 V
**(house default)** between lights off, lights on and lights dimmed in one visit.

Why it matters in the bay
-------------------------
That is the illumination wire. An amplifier on it plays at night only, and the dimmer turns
it into a loudspeaker for the dimmer's own pulses.

Example
-------
Fails::

    - cavity: 14
      function: accessory
      readings:
        - {session: s1, state: lights_off, quantity: dc_v, value: 0.0, battery_v: 12.4}
        - {session: s1, state: lights_on, quantity: dc_v, value: 7.9, battery_v: 12.3}

Passes::

    - cavity: 14
      function: illumination
      readings:
        - {session: s1, state: lights_off, quantity: dc_v, value: 0.0, battery_v: 12.4}
        - {session: s1, state: lights_on, quantity: dc_v, value: 7.9, battery_v: 12.3}

How to mend it
--------------
Type `function: illumination`, and look for the switched wire on another cavity.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.clashes import following_lights
from builder.proof.pin_readings import SWITCHED, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts

_CLAIMED = (*SWITCHED, "constant", "amplifier_on", "aerial_on")


@prints("light_shift_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield the highest of the lights readings where they differ too much."""
    limit_v = shelf.defaults.light_shift_v
    for site in wiring_of(vehicle).having(*_CLAIMED):
        for low, high in following_lights(site.pin, shelf.defaults):
            yield Fault(
                (*high.path, "value"),
                f"{called(site)} reads {volts(value_of(low))} with "
                f"{low.state.replace('_', ' ')} and "
                f"{volts(value_of(high), value_of(low) + limit_v)} with "
                f"{high.state.replace('_', ' ')} (at most {volts(limit_v)} apart): "
                "it follows the lights and switches nothing else",
                "type function: illumination, and look for the switched wire elsewhere",
            )


RULE = rule("MET104", Severity.STOP, Scope.VEHICLE, check, hazard=True)
