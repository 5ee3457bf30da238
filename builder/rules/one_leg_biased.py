"""One leg of a pair is biased and the other is not.

What it catches
---------------
A speaker or line pair of which, at volume zero, one leg reads at least 1 V and the other at
most 0.5 V **(house defaults)** in the same visit.

Why it matters in the bay
-------------------------
Bridged legs rest at the same voltage. These two do not belong together, or the output is
common-ground, or it is broken. A converter across them puts DC where only sound belongs.

Example
-------
Fails::

    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.2, battery_v: 12.4}]
    - cavity: 4
      function: speaker
      channel: front-left
      leg: negative
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 0.0, battery_v: 12.4}]

Passes::

    - cavity: 3
      function: speaker
      channel: front-left
      leg: positive
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.2, battery_v: 12.4}]
    - cavity: 4
      function: speaker
      channel: front-left
      leg: negative
      readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.2, battery_v: 12.4}]

How to mend it
--------------
Find each leg's mate with the ohms test across pairs, radio unplugged, and correct the
channel or leg.

Source
------
Both outputs of a bridge rest at half the supply: ADI bridge amplifier design note (read).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.pair_clashes import is_one_sided
from builder.rules.house import prints
from builder.rules.pair_readings import Bias, biases_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import called, volts


@prints("leg_difference_stop_v", "off_max_v", "biased_leg_min_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield the unbiased leg of every one-sided pair."""
    near_v = shelf.defaults.leg_difference_stop_v
    for bias in biases_of(vehicle):
        if one_sided(bias, shelf.defaults):
            yield Fault(
                (*bias.low_reading.path, "value"),
                f"{called(bias.low)} rests at {volts(bias.low_v)} and {called(bias.high)} at "
                f"{volts(bias.high_v, bias.low_v + near_v)} (bridged legs rest within "
                f"{volts(near_v)} of each other): "
                "these two are no bridged pair",
                "find each leg's mate with the ohms test and correct channel or leg",
            )


def one_sided(bias: Bias, defaults: HouseDefaults) -> bool:
    """Whether one leg carries a bias and the other none."""
    return is_one_sided(bias.low_v, bias.high_v, defaults)


RULE = rule("MET109", Severity.STOP, Scope.VEHICLE, check, hazard=True)
