"""A pin that plans rely on is not proved well enough.

What it catches
---------------
A constant, ground, switched or turn-on pin whose grade is under 0.70: a stop when no other
pin can serve in its place, else a warning. Disputed pins have a finding of their own.

Why it matters in the bay
-------------------------
A wrong speaker wire costs an hour; a wrong supply or turn-on wire costs the radio. Under
`good` the record yields a probe plan, which says what to measure, and no tap plan.

Example
-------
Fails::

    - cavity: 1
      function: constant
      claims: [{by: some-shop, date: 2024-05-10, method: paper, says: constant}]

Passes::

    - cavity: 1
      function: constant
      fuse: {place: F31, rating_a: 15}
      readings:
        - {session: s1, state: asleep, minutes: 65, quantity: dc_v, value: 12.6, battery_v: 12.6}
        - {session: s1, state: run, load: 1a, quantity: dc_v, value: 12.3, battery_v: 12.4}

How to mend it
--------------
Do what the finding names, at the next chance: it is the cheapest thing that raises the grade. Until
then the record is thin, and nothing has to be accepted for that.

Source
------
The bands and weights are chosen by this project; they stand in the handbook.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import Function, GradeBand, Unit
from builder.proof.grading.grade import GOOD
from builder.rules.grades import ROLES, Role, good_roles, grades_of
from builder.rules.house import house_of_grade
from builder.rules.rule import Scope, rule
from builder.rules.wording import called

_WEAK: frozenset[GradeBand] = frozenset({"check first", "don't rely", "unproved"})
_ROLE_OF: dict[Function, Role] = {
    function: role for role, functions in ROLES.items() for function in functions
}
_UNITS: frozenset[Unit] = frozenset({"radio", "amplifier"})


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield pins with some evidence but under the grade that a plan asks for."""
    served: frozenset[Role] | None = None
    for site, grade in grades_of(vehicle, shelf):
        role = _ROLE_OF.get(site.pin.function)
        if role is None or grade.band not in _WEAK or site.plug.unit not in _UNITS:
            continue
        served = good_roles(vehicle, shelf) if served is None else served
        yield Fault(
            (*site.pin.path, "function"),
            f"{called(site)} is graded {grade.label} (at least {shown(GOOD, 2)} is asked): "
            f"{grade.why}; it is enough for a probe plan only"
            f"{house_of_grade(grade, shelf.defaults)}",
            grade.raise_by or "measure the states that define its function",
            Severity.WARN if role in served else None,
        )


RULE = rule("EVD102", Severity.STOP, Scope.VEHICLE, check, not_known=Severity)
