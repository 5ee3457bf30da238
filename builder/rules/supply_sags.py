"""A supply fails under load.

What it catches
---------------
A supply, or an amplifier turn-on output, that loses more than 0.5 V **(house default)**
against the battery, or against its own unloaded reading, when a test load is put on it.

Why it matters in the bay
-------------------------
A meter draws nothing, so a corroded or hair-thin connection still shows battery voltage.
The first ampere shows what it is worth; a converter on it cuts out at the first bass note.

Example
-------
Fails::

    - cavity: 1
      function: constant
      readings:
        - {session: s1, state: run, load: lamp_0.4a, quantity: dc_v, value: 3.1, battery_v: 12.5}

Passes::

    - cavity: 1
      function: constant
      readings:
        - {session: s1, state: run, load: lamp_0.4a, quantity: dc_v, value: 12.3, battery_v: 12.5}

How to mend it
--------------
Check the fuse and the terminal and measure again. If it stays low, this wire is no supply:
describe what it is, or use another one.

Source
------
Loaded voltage test: common practice, no source. The limit is a house default.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import SUPPLIES, Function
from builder.proof.contradictions.clashes import sagging
from builder.proof.pin_readings import value_of
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts

_OUTPUTS: tuple[Function, ...] = ("amplifier_on",)


@prints("supply_drop_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield loaded readings that lie too far under what the wire should give."""
    limit_v = shelf.defaults.supply_drop_v
    for site in wiring_of(vehicle).having(*SUPPLIES, *_OUTPUTS):
        for reading, full_v in sagging(site.pin, shelf.defaults):
            yield Fault(
                (*reading.path, "value"),
                f"{called(site)} falls from {volts(full_v)} to "
                f"{volts(value_of(reading), full_v - limit_v)} "
                f"under {reading.load} (at most {volts(limit_v)} may be lost): "
                "it cannot feed anything",
                "check its fuse and terminal and measure again, or correct the function",
            )


RULE = rule("MET101", Severity.STOP, Scope.VEHICLE, check, hazard=True)
