"""A car called asleep had not been left long enough.

What it catches
---------------
A reading in state `asleep` taken sooner than 20 minutes **(house default)** after locking.

Why it matters in the bay
-------------------------
Networks stay awake for 10 to 60 minutes. Before that a wire that sleeps looks constant, and
a switched one looks broken.

Example
-------
Fails::

    readings:
      - {session: s1, state: asleep, minutes: 3, quantity: dc_v, value: 12.4, battery_v: 12.6}

Passes::

    readings:
      - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 12.6, battery_v: 12.6}

How to mend it
--------------
Lock the car, keep the key away, wait and read again. For a constant wait 60 minutes. If it
was not asleep, type `state: door_open`.

Source
------
Common practice, no source. The waiting times are house defaults.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.asleep import taken_too_soon
from builder.rules.house import prints
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called


@prints("asleep_min")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield asleep readings that came too soon."""
    limit_min = shelf.defaults.asleep_min
    for site, reading in wiring_of(vehicle).measured:
        if taken_too_soon(reading, limit_min):
            yield Fault(
                (*reading.path, "minutes"),
                f"{called(site)} was read {shown(reading.minutes, beside=limit_min)} min after "
                "locking "
                f"(at least {shown(limit_min)} min): the network may still have been awake, so it "
                "proves nothing",
                "wait and read again, or type state: door_open",
            )


RULE = rule("MET121", Severity.WARN, Scope.VEHICLE, check)
