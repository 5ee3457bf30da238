"""Only one contributor has measured this vehicle.

What it catches
---------------
A record whose readings all come from the same contributor.

Why it matters in the bay
-------------------------
One person repeats one mistake: the same face of the plug, the same wrong trim. A second pair
of eyes on a second car is what turns `good` into `proven`.

Example
-------
Fails::

    sessions:
      - {id: s1, by: alder-pit-audio}
      - {id: s2, by: alder-pit-audio}

Passes::

    sessions:
      - {id: s1, by: alder-pit-audio}
      - {id: s2, by: harbour-sound}

How to mend it
--------------
Nothing in the record. Ask another shop to measure the pins of the plan once on their car.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield a note at the first session in use when all are by one contributor."""
    used = {reading.session for _, reading in wiring_of(vehicle).measured}
    sessions = [session for session in vehicle.sessions if session.id in used]
    if sessions and len({vehicle.contributor(session.by) for session in sessions}) == 1:
        yield Fault(
            (*sessions[0].path, "by"),
            f"every reading of this record is by {_who(vehicle)}: one contributor, at least two "
            "are asked for a proven pin, because one person repeats one mistake",
            "ask a second shop to measure the pins of the plan on another car",
        )


def _who(vehicle: Vehicle) -> str:
    """The one handle, or those that count as one contributor."""
    return " and ".join(sorted({session.by for session in vehicle.sessions}))


RULE = rule("EVD103", Severity.NOTE, Scope.RECORD, check, not_known=Severity)
