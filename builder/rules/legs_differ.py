"""The two legs of a pair rest at different voltages.

What it catches
---------------
A pair whose legs differ at volume zero by more than 0.12 V (a warning) or more than 0.25 V
(a stop) **(house defaults)** in one visit. A leg without any bias is `one-leg-biased`.

Why it matters in the bay
-------------------------
The difference is DC through the voice coil. A tenth is normal; a quarter of a volt means a
failing output stage or two legs of different pairs, and the new system gets the blame.

Example
-------
Fails::

    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.46, battery_v: 12.4}]
    - cavity: 4
      function: speaker
      channel: front-left
      leg: negative
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.18, battery_v: 12.4}]

Passes::

    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.41, battery_v: 12.4}]
    - cavity: 4
      function: speaker
      channel: front-left
      leg: negative
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.36, battery_v: 12.4}]

How to mend it
--------------
Measure both again within a minute, battery steady. If the difference stays, check that the
legs are mates; if they are, tell the customer of the fault before work begins.

Source
------
Output offset up to 0.12 V: data sheet TDA7391 (read); ±0.05 V: data sheet TDA7850 rev 6
(read). 0.25 V is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import exceeds
from builder.rules.house import prints
from builder.rules.one_leg_biased import one_sided
from builder.rules.pair_readings import Bias, biases_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import called, volts


@prints("leg_difference_warn_v", "leg_difference_stop_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield pairs whose legs rest too far apart."""
    defaults = shelf.defaults
    for bias in biases_of(vehicle):
        apart_v = bias.high_v - bias.low_v
        if not exceeds(apart_v, defaults.leg_difference_warn_v) or one_sided(bias, defaults):
            continue
        if exceeds(apart_v, defaults.leg_difference_stop_v):
            yield _fault(bias, defaults.leg_difference_stop_v, Severity.STOP)
        else:
            yield _fault(bias, defaults.leg_difference_warn_v, Severity.WARN)


def _fault(bias: Bias, limit_v: float, severity: Severity) -> Fault:
    return Fault(
        (*bias.low_reading.path, "value"),
        f"{called(bias.low)} rests at {volts(bias.low_v)} and {called(bias.high)} at "
        f"{volts(bias.high_v)}: {volts(bias.high_v - bias.low_v, limit_v)} apart, at most "
        f"{volts(limit_v)} is normal; the difference is DC through the speaker",
        "measure both again within a minute; check with ohms that they are a pair",
        severity,
    )


RULE = rule("MET110", Severity.STOP, Scope.VEHICLE, check, hazard=True)
