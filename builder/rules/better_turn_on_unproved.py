"""A better turn-on is described and nobody proved it.

What it catches
---------------
A job that accepts a lower rung of the turn-on ladder while a source of a better rung stands in the
record and is not proved. Without the acceptance such a job gets no tap plan: it gets the reading
that would prove the better source.

Why it matters in the bay
-------------------------
A converter that wakes from sound comes on late and may cut quiet passages, a run supply is dead in
accessory. One reading of a wire that is there would have spared the customer that.

Example
-------
Fails::

    turn_on: {chosen: signal wake, better: accessory A.8, grade: check first}

Passes::

    turn_on: {chosen: accessory A.8, grade: good}

How to mend it
--------------
Take the reading that the probe plan asks for. If the wire cannot be reached or read in this car,
accept this rule in the job and say why; the plan then says at its top what it left alone.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.turn_on.better_rung import LOWER_RUNG_RULE, UNPROVED
from builder.planning.words import RUNG_NAMES
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield the better rung that the job leaves alone."""
    for rung in pack.plan.ladder:
        if rung.verdict == UNPROVED:
            kind = RUNG_NAMES[rung.kind]
            yield Fault(
                ("converter",),
                f"{kind} {rung.where}, rung {rung.rung}, would be a better turn-on and is not "
                f"proved ({rung.because})",
                "take its reading, and the plan uses it",
            )


RULE = rule(LOWER_RUNG_RULE, Severity.FIX, Scope.JOB, check, not_known=Severity)
