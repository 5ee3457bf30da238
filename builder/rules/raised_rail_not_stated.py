"""Legs rest higher than a battery allows, and no raised supply is stated.

What it catches
---------------
A speaker leg of a factory amplifier that rests above the most bias of such legs (14 V, house
default) in a record whose factory amplifier has no `rail_v`.

Why it matters in the bay
-------------------------
A bridge rests at half its supply, so such an amplifier makes a supply of its own, twice the bias.
Until the record says so, the reading counts against the pin, and nothing bounds its level.

Example
-------
Fails::

    factory_amplifier: {feed: digital, location: boot}
    # at a leg: {state: radio_on_zero, quantity: dc_v, value: 16.0}

Passes::

    factory_amplifier: {feed: digital, location: boot, rail_v: 32}

How to mend it
--------------
Read the leg again against battery negative, radio on at volume zero. Where it stays, write twice
its volts as rail_v, better what a meter reads on the supply of the output stages.

Source
------
Half-supply bias: ADI bridge amplifier design note (read). The limit is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import exceeds, ground_volts, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called


@prints("boosted_leg_max_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each reading of a leg that only a raised supply explains."""
    amplifier, most = vehicle.factory_amplifier, shelf.defaults.boosted_leg_max_v
    if amplifier.feed == "none" or amplifier.rail_v is not None:
        return
    for pair in wiring_of(vehicle).pairs:
        for site in (*pair.positives, *pair.negatives) if pair.unit == "amplifier" else ():
            for reading in ground_volts(site.pin, ("radio_on_zero",)):
                if exceeds(value_of(reading), most):
                    read = shown(value_of(reading), 2, beside=most)
                    yield Fault(
                        (*reading.path, "value"),
                        f"{called(site)} rests at {read} V, more than {shown(most)} V: that takes "
                        "a supply above the battery's, and the record states none",
                        "read it again; if it stays, read the supply of the output stages and "
                        "write it at factory_amplifier as rail_v",
                    )


RULE = rule("MET126", Severity.WARN, Scope.VEHICLE, check, not_known=Severity)
