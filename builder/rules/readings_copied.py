"""Readings of two people are the same to the last digit.

What it catches
---------------
Two visits by different contributors on the same day, which share at least three readings
and agree in every one of those to 0.01.

Why it matters in the bay
-------------------------
Two meters on two cars never agree like that. One sheet was typed twice, and a pin looks
proved by two people when one has seen it.

Example
-------
Fails::

    # s1 by alder-pit-audio and s2 by harbour-sound, both of 2024-05-13
    readings:
      - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 12.61, battery_v: 12.4}
      - {session: s1, state: run, quantity: dc_v, value: 12.31, battery_v: 12.4}
      - {session: s1, state: accessory, quantity: dc_v, value: 12.40, battery_v: 12.4}
      - {session: s2, state: asleep, minutes: 65, quantity: dc_v, value: 12.61, battery_v: 12.4}
      - {session: s2, state: run, quantity: dc_v, value: 12.31, battery_v: 12.4}
      - {session: s2, state: accessory, quantity: dc_v, value: 12.40, battery_v: 12.4}

Passes::

    # s1 by alder-pit-audio and s2 by harbour-sound, both of 2024-05-13
    readings:
      - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 12.61, battery_v: 12.4}
      - {session: s2, state: asleep, minutes: 70, quantity: dc_v, value: 12.54, battery_v: 12.4}

How to mend it
--------------
Keep the visit of the person who measured and delete the copy. Copies count once either
way.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations

from builder.findings import Fault, Severity
from builder.model.plugs import Session
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of

_SHARED_AT_LEAST = 3
_Figures = dict[tuple[str, ...], float | None]


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the later of two sessions that are copies of each other."""
    suspects = [two for two in combinations(vehicle.sessions, 2) if _could_be_copied(*two)]
    if not suspects:
        return
    figures = _figures_by_session(vehicle)
    for first, second in suspects:
        shared = _shared_count(figures[first.id], figures[second.id])
        if shared >= _SHARED_AT_LEAST:
            yield Fault(
                (*second.path, "by"),
                f'all {shared} readings that "{second.id}" by {second.by} shares with '
                f'"{first.id}" by {first.by} agree to 0.01 (two meters on two cars never do, '
                f"from {_SHARED_AT_LEAST} on): they count once",
                "keep the visit of who measured, and delete the copy",
            )


def _could_be_copied(first: Session, second: Session) -> bool:
    return first.by != second.by and first.date == second.date and first.id != second.id


def _figures_by_session(vehicle: Vehicle) -> defaultdict[str, _Figures]:
    figures: defaultdict[str, _Figures] = defaultdict(dict)
    for site, reading in wiring_of(vehicle).measured:
        against = "ground" if reading.against in GROUND_REFERENCES else reading.against
        key = (site.name, reading.state, reading.quantity, against, reading.load)
        value = None if reading.value is None else round(reading.value, 2)
        figures[reading.session][key] = value
    return figures


def _shared_count(one: _Figures, other: _Figures) -> int:
    """How many readings both have, 0 when any of them differs."""
    shared = one.keys() & other.keys()
    return len(shared) if all(one[key] == other[key] for key in shared) else 0


RULE = rule("EVD105", Severity.WARN, Scope.RECORD, check)
