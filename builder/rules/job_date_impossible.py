"""A date of a job that cannot be.

What it catches
---------------
The day on which a job was begun, a result, a note, a tick, a proof of wires at a place or a
follow-up from before the car was built; one of these, or the last work on the record, dated after
the day the book is checked for; and a follow-up from before the first reading of the job.

Why it matters in the bay
-------------------------
Results prove pins for the next car, and how old they are decides how far they are believed.

Example
-------
Fails::

    car: {tag: k7m2, year: 2018, built: 2018-04}
    results: [{test: battery-rest, value: 12.4, by: alder-pit-audio, date: 2015-05-20}]

Passes::

    car: {tag: k7m2, year: 2018, built: 2018-04}
    results: [{test: battery-rest, value: 12.4, by: alder-pit-audio, date: 2025-05-20}]

How to mend it
--------------
Correct the date (year, month, day), or the month in which the car was built.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.dates import EDITED, FOLLOW_UP, dated_in
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule

_HELP = "correct the date, or the month in which the car was built"


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield dates that contradict the car, the day, or the order of the work."""
    began = min((result.date for result in job.results), default="")
    for what, date, path in dated_in(job):
        if what != EDITED and job.car.built and date < job.car.built:
            yield Fault(path, f"{what} is of {date}, before the car was built", _HELP)
        elif shelf.as_of and date > shelf.as_of:
            says = f"{what} is of {date}, after {shelf.as_of}, the day the book is checked for"
            yield Fault(path, says, _HELP)
        elif what == FOLLOW_UP and date < began:
            says = f"a follow-up is of {date}, before the first reading of the job on {began}"
            yield Fault(path, says, "correct the date of the one or of the other")


RULE = rule("SAF111", Severity.FIX, Scope.NAMES, check)
