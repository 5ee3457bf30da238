"""Half of a speaker pair.

What it catches
---------------
A speaker or line channel of which only the positive or only the negative leg is described.

Why it matters in the bay
-------------------------
A converter input needs both legs. Tying the missing one to chassis destroys a bridged
output stage.

Example
-------
Fails::

    pins:
      - {cavity: 3, function: speaker, channel: front-right, leg: positive}

Passes::

    pins:
      - {cavity: 3, function: speaker, channel: front-right, leg: positive}
      - {cavity: 4, function: speaker, channel: front-right, leg: negative}

How to mend it
--------------
Find the other leg with the ohms test across the pair and add it. If it was already listed,
look for a wrong `channel` or `leg`.

Source
------
Both legs of a bridged output are driven and neither is ground: TI TPA005D02 evaluation
manual (read). The ohms test is common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of
from builder.rules.wording import called


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield every channel of a unit that lacks one leg."""
    for pair in wiring_of(vehicle).pairs:
        if bool(pair.positives) != bool(pair.negatives):
            site = (pair.positives or pair.negatives)[0]
            missing = "negative" if pair.positives else "positive"
            yield Fault(
                (*site.pin.path, "leg"),
                f"{called(site)} has no {missing} leg at the {pair.unit.replace('_', ' ')}: "
                "a converter needs both, and chassis is no replacement for a driven leg",
                f"add the pin with channel: {pair.channel} and leg: {missing}",
            )


RULE = rule("PIN104", Severity.FIX, Scope.RECORD, check, not_known=Severity)
