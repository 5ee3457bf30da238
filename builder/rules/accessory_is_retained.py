"""A switched wire stays on after the key is out.

What it catches
---------------
An accessory or run pin that still carries voltage with the key off and the door not yet
opened.

Why it matters in the bay
-------------------------
Nothing is broken: the wire is a retained supply, which is better for a radio amplifier.
Called by its name, the plan knows that music goes on until the door opens.

Example
-------
Fails::

    - cavity: 2
      function: accessory
      readings:
        - {session: s1, state: retained, quantity: dc_v, value: 12.3, battery_v: 12.5}

Passes::

    - cavity: 2
      function: retained
      readings:
        - {session: s1, state: retained, quantity: dc_v, value: 12.3, battery_v: 12.5}

How to mend it
--------------
Type `function: retained`.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.proof.pin_readings import ground_volts, is_on, value_of
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield retained readings of accessory and run wires that show the battery."""
    for site in wiring_of(vehicle).having("accessory", "run"):
        for reading in ground_volts(site.pin, ("retained",)):
            if is_on(reading):
                yield Fault(
                    (*reading.path, "value"),
                    f"{called(site)} still reads {volts(value_of(reading))} with the key off and "
                    "the door shut (under half the battery is expected): it is a retained "
                    "supply, and music will go on until the door opens",
                    "type function: retained",
                )


RULE = rule("MET105", Severity.NOTE, Scope.RECORD, check)
