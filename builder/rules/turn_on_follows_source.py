"""The amplifier turn-on goes off with some sources.

What it catches
---------------
An `amplifier_on` pin that reads less than half on one source of what it reads on another,
in one visit.

Why it matters in the bay
-------------------------
It is the aerial output: on with the tuner, off with disc or telephone. The amplifier goes
silent whenever the customer changes the source.

Example
-------
Fails::

    - cavity: 5
      function: amplifier_on
      readings:
        - {session: s1, state: tuner, quantity: dc_v, value: 12.1, battery_v: 12.4}
        - {session: s1, state: other_source, quantity: dc_v, value: 0.0, battery_v: 12.4}

Passes::

    - cavity: 5
      function: amplifier_on
      readings:
        - {session: s1, state: tuner, quantity: dc_v, value: 12.1, battery_v: 12.4}
        - {session: s1, state: other_source, quantity: dc_v, value: 12.1, battery_v: 12.4}

How to mend it
--------------
Type `function: aerial_on`, and choose another turn-on source.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.clashes import following_source
from builder.proof.pin_readings import value_of
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called, volts


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the lower reading where tuner and another source disagree."""
    for site in wiring_of(vehicle).having("amplifier_on"):
        for low, high in following_source(site.pin):
            yield Fault(
                (*low.path, "value"),
                f"{called(site)} reads {volts(value_of(high))} on "
                f"{high.state.replace('_', ' ')} and {volts(value_of(low))} on "
                f"{low.state.replace('_', ' ')} (at least half is expected on every source): "
                "the amplifier would go silent with the source",
                "type function: aerial_on, and choose another turn-on source",
            )


RULE = rule("MET116", Severity.STOP, Scope.RECORD, check, hazard=True)
