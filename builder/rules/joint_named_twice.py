"""Two joints of a begun job have one name.

What it catches
---------------
Two joints of `begun: as_built` with the same `id`.

Why it matters in the bay
-------------------------
The way back undoes what is joined by its name. With two of one name, the one is undone and the
other forgotten, or a step sends the hand to the wrong place.

Example
-------
Fails::

    joints:
      - {id: joint 7, place: radio, meets: A.7 and turn-on lead, how: crimp}
      - {id: joint 7, place: radio, meets: A.8 and ground, how: crimp}

Passes::

    joints:
      - {id: joint 7, place: radio, meets: A.7 and turn-on lead, how: crimp}
      - {id: joint 8, place: radio, meets: A.8 and ground, how: crimp}

How to mend it
--------------
Look at the car, and give the one that is not on the printed sheets a name that no other has; take
it out if the same joint was typed twice.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(job: Job, shelf: Shelf, vehicle: Vehicle | None) -> Iterator[Fault]:
    """Yield the later of two joints with one name."""
    seen: set[str] = set()
    for at, joint in enumerate(job.begun.as_built.joints if job.begun else ()):
        if joint.id in seen:
            yield Fault(
                ("begun", "as_built", "joints", at, "id"),
                f'there are two joints called "{joint.id}": the way back could mean either',
                "give this joint a name that no other has, or take it out if it was typed twice",
            )
        seen.add(joint.id)


RULE = rule("TOP131", Severity.FIX, Scope.NAMES, check)
