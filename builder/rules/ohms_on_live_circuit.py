"""Ohms were read on a live circuit.

What it catches
---------------
A reading in ohms whose state is neither `unplugged` nor `battery_off`.

Why it matters in the bay
-------------------------
An ohmmeter puts its own current through the wire. Any voltage already there gives a figure
that means nothing, and may take the meter or a module with it.

Example
-------
Fails::

    readings:
      - {session: s1, state: accessory, against: body, quantity: ohm, value: 0.3}

Passes::

    readings:
      - {session: s1, state: battery_off, against: body, quantity: ohm, value: 0.3}

How to fix
----------
Pull the plug or take the battery negative off, read again, and state which.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.pair_readings import DEAD_STATES
from builder.rules.rule import Rule, Scope
from builder.rules.wiring import wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield ohms readings in a state with voltage about."""
    for site, reading in wiring_of(vehicle).measured:
        if reading.quantity == "ohm" and reading.state not in DEAD_STATES:
            yield Fault(
                (*reading.path, "state"),
                f"{called(site)}: ohms were read in state {reading.state} (only unplugged or "
                "battery_off): any voltage on the wire makes the figure meaningless",
                "read it again on a dead circuit, then type state: unplugged or battery_off",
            )


RULE = Rule(
    id="MET122",
    slug="ohms-on-live-circuit",
    severity=Severity.FIX,
    scope=Scope.RECORD,
    check=check,
    title="Ohms were read on a live circuit",
)
