"""Strong evidence stands both for and against a pin.

What it catches
---------------
A pin whose support and opposition both reach 0.40, however far apart they are.

Why it matters in the bay
-------------------------
Two people who looked disagree. Counting heads does not settle it; one measurement does, and
until then either answer may be the one that burns the radio.

Example
-------
Fails::

    - cavity: 1
      function: constant
      claims:
        - {by: alder-pit-audio, date: 2024-05-10, method: paper, says: constant}
        - {by: harbour-sound, date: 2024-06-02, method: paper, says: illumination}

Passes::

    - cavity: 1
      function: constant
      claims:
        - {by: alder-pit-audio, date: 2024-05-10, method: paper, says: constant}
        - {by: harbour-sound, date: 2024-06-02, method: paper, says: constant}

How to mend it
--------------
Rule out what only looks like a dispute, in this order: counted from the other face; two kinds of
car under one scope; another plug or cavity; another state of the car, or not yet asleep. The
finding says which of these fits, and what to type then. If none does, take the one measurement
that it names. Then write a resolution that says who
decided, when, and by which reading; nothing is deleted.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.contradictions.spoken_against import Attack, attack_of
from builder.proof.grading.grade import DISPUTED
from builder.rules.grades import grades_of
from builder.rules.house import house_of_grade
from builder.rules.rule import Scope, rule
from builder.rules.wording import called


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield disputed pins."""
    for site, grade in grades_of(vehicle, shelf):
        if grade.band == "disputed":
            attack = attack_of(vehicle, site.pin, grade, shelf.defaults, shelf.housings)
            yield Fault(
                (*site.pin.path, "function"),
                f"{called(site)} is disputed: {shown(grade.support, 2, beside=DISPUTED)} for and "
                f"{shown(grade.opposition, 2, beside=DISPUTED)} against it (both at least "
                f"{shown(DISPUTED, 2)}): {grade.why}"
                f"{house_of_grade(grade, shelf.defaults)}",
                _help(attack) or grade.raise_by or "take the reading that tells the two apart",
            )


def _help(attack: Attack | None) -> str:
    """What the first explanation that fits says to do, and the reading that decides after it."""
    if attack is None:
        return ""
    first, last = attack.first_advice, attack.tried[-1].do
    return f"{first}. Else: {last}" if first else last


RULE = rule("EVD104", Severity.STOP, Scope.VEHICLE, check)
