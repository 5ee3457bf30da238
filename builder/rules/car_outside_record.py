"""The car in the bay is not one of the record.

What it catches
---------------
A year, month of build or trim of the job's car that the vehicle record does not cover, or an
answer to one of its questions that leads to another record.

Why it matters in the bay
-------------------------
The next trim may have an amplifier, other pins, another plug. A plan made from the wrong record
puts 12 V where it does not belong.

Example
-------
Fails::

    vehicle: lovage-2021-mid
    car: {tag: dusk-6, year: 2018, trim: top, answers: []}

Passes::

    vehicle: lovage-2021-mid
    car: {tag: dusk-6, year: 2021, trim: mid, answers: []}

How to mend it
--------------
Name the record that covers this car; where there is none, measure, and make one.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job, JobCar
from builder.model.vehicle import Scope, Vehicle
from builder.model.words import ALL, THIS
from builder.rules.rule import Scope as RuleScope
from builder.rules.rule import rule


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield what of the job's car the vehicle record does not cover."""
    if vehicle is None:
        return
    for key, value, why in _outside(job.car, vehicle.scope):
        yield Fault(
            ("car", key),
            f'the car is {value}, and the record "{vehicle.id}" {why}: its pins may differ',
            "name the record of this car, or correct the car",
        )
    yield from _answers(job, vehicle)


def _outside(car: JobCar, scope: Scope) -> Iterator[tuple[str, str, str]]:
    """Key, value and reason of each fact that the scope excludes."""
    if car.year is not None and not scope.year_from <= car.year <= scope.year_to:
        years = f"is about {scope.year_from} to {scope.year_to}"
        yield "year", f"of model year {car.year}", years
    if car.built is not None:
        if scope.build_from is not None and car.built < scope.build_from:
            yield "built", f"built in {car.built}", f"begins with {scope.build_from}"
        if scope.build_to is not None and car.built > scope.build_to:
            yield "built", f"built in {car.built}", f"ends with {scope.build_to}"
    if car.trim is not None and ALL not in scope.trims and car.trim not in scope.trims:
        yield "trim", f'of trim "{car.trim}"', f"is about {', '.join(scope.trims)}"


def _answers(job: Job, vehicle: Vehicle) -> Iterator[Fault]:
    for index, told in enumerate(job.car.answers):
        question = next((q for q in vehicle.how_to_tell if q.question == told.question), None)
        if question is None:
            continue
        means = [each.means for each in question.answers if each.answer == told.answer]
        if THIS not in means:
            leads = f"leads to {', '.join(means)}" if means else "is none of its answers"
            yield Fault(
                ("car", "answers", index, "answer"),
                f'"{told.answer}" {leads}, not to the record "{vehicle.id}": the car is '
                "another one",
                "name the record the answer leads to, or look again",
            )


RULE = rule("TOP103", Severity.STOP, RuleScope.NAMES, check)
