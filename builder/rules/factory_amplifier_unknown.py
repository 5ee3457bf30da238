"""Nobody knows whether there is a factory amplifier.

What it catches
---------------
`factory_amplifier: {feed: unknown}`.

Why it matters in the bay
-------------------------
With an amplifier, the radio's speaker cavities may carry a fixed level, a data link or
nothing. A plan made for the wrong one costs half a day, and unknown is not "no".

Example
-------
Fails::

    factory_amplifier: {feed: unknown}

Passes::

    factory_amplifier: {feed: none}

How to mend it
--------------
Look for a finned box (luggage side, under a seat), or play music and measure the radio's
speaker cavities: a bias of 5 to 8 V on both legs means that the radio drives them itself.
Then type none, analogue_variable, analogue_fixed or digital.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield a fault when the amplifier's feed is unknown."""
    if vehicle.factory_amplifier.feed == "unknown":
        yield Fault(
            ("factory_amplifier", "feed"),
            "nobody knows whether a factory amplifier sits between radio and speakers: the "
            "radio's pins may carry a fixed level, data or nothing, so no plan can be made",
            "look for the amplifier, then type feed: none, analogue_variable, analogue_fixed "
            "or digital",
        )


RULE = rule("PIN115", Severity.STOP, Scope.RECORD, check, not_known=Severity)
