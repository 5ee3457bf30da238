"""A vented box without its tuning.

What it catches
---------------
A vented box whose `tuned_hz` is not written down, where the job states no subsonic corner itself.

Why it matters in the bay
-------------------------
Below its tuning a vented box holds the cone no longer: it moves as far as it can and hits its stop.
A subsonic filter keeps that away, and its corner follows from the tuning.

Example
-------
Fails::

    speakers: [{name: sub, box: {kind: vented}}]

Passes::

    speakers: [{name: sub, box: {kind: vented, tuned_hz: 34}}]

How to mend it
--------------
Write down the tuning from the box's papers, or measure it: the frequency at which the cone moves
least.

Source
------
Textbook law of the vented box (memory): the cone moves least at the tuning and, below it, as in
free air.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(_pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each vented box of which neither tuning nor subsonic corner is written down."""
    for speaker in parts.job.speakers:
        box, filters = speaker.box, speaker.filters
        stated = filters is not None and filters.subsonic_hz is not None
        if box is not None and box.kind == "vented" and box.tuned_hz is None and not stated:
            yield Fault(
                (*speaker.path, "box"),
                f"the box of {speaker.name} is vented and nobody wrote down what it is tuned to: "
                "no subsonic corner can be given",
                "type tuned_hz, from the box's papers or as measured, or filters.subsonic_hz",
            )


RULE = rule("LVL113", Severity.WARN, Scope.JOB, check, not_known=Severity)
