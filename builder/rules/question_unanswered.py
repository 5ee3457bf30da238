"""Nobody looked which of several cars this is.

What it catches
---------------
A question of the vehicle record that the job does not answer.

Why it matters in the bay
-------------------------
The record has sisters that differ at the pins. Without the answer the plan is a guess, and
unknown is not the base trim.

Example
-------
Fails::

    vehicle: lovage-2021-mid
    car: {tag: dusk-6, answers: []}

Passes::

    vehicle: lovage-2021-mid
    car:
      tag: dusk-6
      answers: [{question: "Is there a badge on the doors?", answer: "no"}]

How to mend it
--------------
Answer the question; the ones that only need a look come first.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.names import COST_WORDS
from builder.model.vehicle import Vehicle
from builder.proof.sisters.questions import cheapest_first
from builder.rules.rule import Scope, rule


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield the questions nobody answered, cheapest first."""
    answered = {told.question for told in job.car.answers}
    for question in cheapest_first(vehicle.how_to_tell if vehicle else ()):
        if question.question not in answered:
            yield Fault(
                ("car", "answers"),
                f'nobody answered "{question.question}" ({COST_WORDS[question.cost]}): sister cars '
                "have other pins",
                "add the question and its answer under answers",
            )


RULE = rule("TOP104", Severity.STOP, Scope.NAMES, check, not_known=Severity)
