"""The scope reaches further than anybody measured.

What it catches
---------------
A scope whose years begin more than one year before, or end more than one year after, the
cars that were measured for it.

Why it matters in the bay
-------------------------
Makers change plugs within a generation. A pin proved on a 2018 car is a guess on a 2022 car.

Example
-------
Fails::

    # the only measured car was built in 2018
    scope: {year_from: 2016, year_to: 2022}

Passes::

    # the only measured car was built in 2018
    scope: {year_from: 2017, year_to: 2019}

How to mend it
--------------
Measure an early and a late car, or narrow the years.

Source
------
Common practice, no source; one year either side is chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule
from builder.rules.wiring import wiring_of

_YEARS_EITHER_SIDE = 1


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the ends of the scope that lie beyond the measured years."""
    years = _measured_years(vehicle)
    if not years:
        return
    first, last, scope = min(years), max(years), vehicle.scope
    if scope.year_from < first - _YEARS_EITHER_SIDE:
        yield _fault("year_from", scope.year_from, f"the oldest measured car is of {first}")
    if scope.year_to > last + _YEARS_EITHER_SIDE:
        yield _fault("year_to", scope.year_to, f"the newest measured car is of {last}")


def _measured_years(vehicle: Vehicle) -> list[int]:
    used = {reading.session for _, reading in wiring_of(vehicle).measured}
    return [s.car_year for s in vehicle.sessions if s.car_year is not None and s.id in used]


def _fault(key: str, year: int, known: str) -> Fault:
    return Fault(
        ("scope", key),
        f"the scope claims {year}, but {known}: plugs change within a generation, and more "
        "than one year from a measured car is a guess",
        f"measure such a car, or narrow {key}",
    )


RULE = rule("PIN118", Severity.WARN, Scope.RECORD, check, not_known=Severity)
