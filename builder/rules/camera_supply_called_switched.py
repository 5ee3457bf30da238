"""A camera supply is called a switched wire.

What it catches
---------------
A pin called constant, accessory, run or retained whose unloaded readings, in every state
in which it should carry the battery, lie between 5 and 8 V **(house defaults)**.

Why it matters in the bay
-------------------------
Radios make 6 V for a camera or an aerial. It can give a few milliamperes; a converter on it
takes the camera picture away or the radio with it.

Example
-------
Fails::

    - cavity: 7
      function: accessory
      readings: [{session: s1, state: accessory, quantity: dc_v, value: 6.1, battery_v: 12.4}]

Passes::

    - cavity: 7
      function: camera_supply
      readings: [{session: s1, state: accessory, quantity: dc_v, value: 6.1, battery_v: 12.4}]

How to mend it
--------------
Type `function: camera_supply`, and look for the switched wire on another cavity.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.clashes import resting_as_camera
from builder.proof.pin_readings import SWITCHED, value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


@prints("camera_min_v", "camera_max_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield supplies that show a steady 5 to 8 V wherever they should show the battery."""
    low_v, high_v = shelf.defaults.camera_min_v, shelf.defaults.camera_max_v
    for site in wiring_of(vehicle).having("constant", *SWITCHED):
        reading = resting_as_camera(site.pin, shelf.defaults)
        if reading is not None:
            yield Fault(
                (*reading.path, "value"),
                f"{called(site)} reads {volts(value_of(reading), low_v, high_v)} where the "
                "battery is expected "
                f"({shown(low_v)} to {volts(high_v)} is a camera supply): it can feed a few "
                "milliamperes and no more",
                "type function: camera_supply, and look for the switched wire elsewhere",
            )


RULE = rule("MET117", Severity.STOP, Scope.VEHICLE, check, hazard=True)
