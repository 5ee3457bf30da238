"""A date that cannot be.

What it catches
---------------
A visit before its car was built (before the month stated, or more than a year before its
model year), and a visit or claim dated after the day the book is checked for.

Why it matters in the bay
-------------------------
Either the date or the car is wrong. If it is the car, the readings belong to another record.

Example
-------
Fails::

    sessions:
      - {id: s1, date: 2016-03-02, car: {tag: k7m2, year: 2018}}

Passes::

    sessions:
      - {id: s1, date: 2018-03-02, car: {tag: k7m2, year: 2018}}

How to mend it
--------------
Correct the date (year, month, day), or the year of the car.

Source
------
Common practice, no source. One year before the model year is chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.plugs import Session
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of

_HELP = "correct the date, or the year of the car"


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield sessions and claims whose date contradicts the car or the day."""
    for session in vehicle.sessions:
        built = _earliest(session)
        if built is not None and session.date < built:
            yield Fault(
                (*session.path, "date"),
                f'visit "{session.id}" is of {session.date}, but its car cannot be older than '
                f"{built}: the readings may belong to another car",
                _HELP,
            )
        elif shelf.as_of and session.date > shelf.as_of:
            what = f'visit "{session.id}"'
            yield Fault((*session.path, "date"), _future(what, session.date, shelf.as_of), _HELP)
    if shelf.as_of:
        yield from _claims(vehicle, shelf.as_of)


def _earliest(session: Session) -> str | None:
    """The first day on which the car of the session can have existed."""
    if session.car_built and session.car_built != UNKNOWN:
        return session.car_built
    return None if session.car_year is None else f"{session.car_year - 1:04d}"


def _claims(vehicle: Vehicle, as_of: str) -> Iterator[Fault]:
    for site in wiring_of(vehicle).sites:
        for claim in site.pin.claims:
            if claim.date > as_of:
                what = f"a claim by {claim.by}"
                yield Fault((*claim.path, "date"), _future(what, claim.date, as_of), _HELP)


def _future(what: str, date: str, as_of: str) -> str:
    return f"{what} is of {date}, after {as_of}, the day the book is checked for"


RULE = rule("EVD106", Severity.FIX, Scope.VEHICLE, check)
