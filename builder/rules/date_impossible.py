"""A date that cannot be.

What it catches
---------------
A visit before its car was built (before the month stated, or more than a year before its
model year); a visit, a claim, a settled dispute, the day on which a visit was turned or
withdrawn, or the last work on the record, dated after the day the book is checked for; and a
visit that was turned or withdrawn before its own day.

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

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.dates import EDITED
from builder.model.plugs import Session
from builder.model.vehicle import VISITS, Vehicle
from builder.model.visit import Visit
from builder.model.words import UNKNOWN
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of

_HELP = "correct the date, or the year of the car"


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield what is dated before it can have been, or after the day."""
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
    for at, visit in enumerate(vehicle.visits):
        yield from _changes_of(visit, (VISITS, at), shelf.as_of)
    if shelf.as_of:
        yield from _claims(vehicle, shelf.as_of)
        yield from _settled(vehicle, shelf.as_of)
        yield from _edited(vehicle, shelf.as_of)


def _changes_of(visit: Visit, path: DataPath, as_of: str | None) -> Iterator[Fault]:
    """What was done to a visit later: the days on which it was turned, and withdrawn."""
    done = [
        (f'that visit "{visit.id}" was turned', each.date, (*path, "turned", at, "date"))
        for at, each in enumerate(visit.turned)
    ]
    if (gone := visit.withdrawn) is not None:
        done.append(
            (f'that visit "{visit.id}" was withdrawn', gone.date, (*path, "withdrawn", "date"))
        )
    for what, date, where in done:
        if date < visit.date:
            told = f"{what} is of {date}, before the visit itself, {visit.date}"
            yield Fault(where, told, "correct the date: year, month, day")
        elif as_of and date > as_of:
            yield Fault(where, _future(what, date, as_of), "correct the date: year, month, day")


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


def _settled(vehicle: Vehicle, as_of: str) -> Iterator[Fault]:
    for each in vehicle.resolutions:
        if each.date > as_of:
            what = f"what settled {each.pin}"
            yield Fault((*each.path, "date"), _future(what, each.date, as_of), _HELP)


def _edited(vehicle: Vehicle, as_of: str) -> Iterator[Fault]:
    if vehicle.edited is not None and vehicle.edited > as_of:
        what = _future(EDITED, vehicle.edited, as_of)
        yield Fault(("edited",), what, "correct the date: year, month, day")


def _future(what: str, date: str, as_of: str) -> str:
    return f"{what} is of {date}, after {as_of}, the day the book is checked for"


RULE = rule("EVD106", Severity.FIX, Scope.VEHICLE, check)
