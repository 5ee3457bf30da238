"""Readings come from a car outside the record's scope.

What it catches
---------------
A visit in use whose car is of a trim, drive side or year that the scope does not name.

Why it matters in the bay
-------------------------
The neighbouring trim often has another plug or an amplifier. Such readings are a good hint
and no proof; they count seven tenths.

Example
-------
Fails::

    # scope: {trims: [base], drive_side: left, year_from: 2016, year_to: 2019}
    sessions:
      - {id: s1, car: {tag: k7m2, year: 2018, trim: sport, drive_side: left}}

Passes::

    # scope: {trims: [base], drive_side: left, year_from: 2016, year_to: 2019}
    sessions:
      - {id: s1, car: {tag: k7m2, year: 2018, trim: base, drive_side: left}}

How to mend it
--------------
Measure a car of the scope, move the readings to the record they belong to, or widen the
scope if you know that both are alike.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.plugs import Session
from builder.model.vehicle import Scope as CarScope
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of

_ANY_TRIM = frozenset({"all", "unknown"})
_ANY_SIDE = frozenset({"both", "unknown"})


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield what differs between each measured car and the scope."""
    used = {reading.session for _, reading in wiring_of(vehicle).measured}
    for session in vehicle.sessions:
        if session.id in used:
            for key, seen, wanted in _differences(session, vehicle.scope):
                yield Fault(
                    (*session.path, "car", key),
                    f'visit "{session.id}" measured a car with {key.replace("_", " ")} {seen}, '
                    f"but the record is about {wanted}: its readings are a hint and no proof",
                    "measure a car of the scope, or move the readings to their own record",
                )


def _differences(session: Session, scope: CarScope) -> Iterator[tuple[str, str, str]]:
    trim, side, year = session.car_trim, session.car_drive_side, session.car_year
    if trim and trim not in scope.trims and not _ANY_TRIM & {trim, *scope.trims}:
        yield "trim", trim, ", ".join(scope.trims)
    if side and side != scope.drive_side and not _ANY_SIDE & {side, scope.drive_side}:
        yield "drive_side", side, scope.drive_side
    if year is not None and not scope.year_from <= year <= scope.year_to:
        yield "year", str(year), f"{scope.year_from} to {scope.year_to}"


RULE = rule("EVD107", Severity.WARN, Scope.RECORD, check)
