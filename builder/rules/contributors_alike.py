"""Two registered handles that could be one contributor.

What it catches
---------------
Two records in `contributors` whose handles look alike, or that have a public key in common, and
that do not both name each other under `not_same_as`.

Why it matters in the bay
-------------------------
Two shops prove more than one. A shop that is registered twice, by a slip or by a new sign over its
door, would prove a pin all by itself. Until somebody has said which it is, the two count as one.

Example
-------
Fails::

    # contributors/alder-pit-audio.yaml
    id: alder-pit-audio
    ---
    # contributors/alder-pit-sound.yaml
    id: alder-pit-sound

Passes::

    # contributors/alder-pit-audio.yaml
    id: alder-pit-audio
    not_same_as: [alder-pit-sound]
    ---
    # contributors/alder-pit-sound.yaml
    id: alder-pit-sound
    not_same_as: [alder-pit-audio]

How to mend it
--------------
Ask them. If it is one shop, delete the later record and add a line to `renamed` in the settings of
the book, so that the old handle is read as the one that stays. If they are two, write each handle
under `not_same_as` of the other.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.contributor import Contributor
from builder.proof.contributors import twins
from builder.rules.rule import Scope, rule


def check(contributor: Contributor, shelf: Shelf) -> Iterator[Fault]:
    """Yield what an earlier handle has in common with this one."""
    for first, second, why in twins(shelf.contributors):
        if second == contributor.id:
            yield Fault(
                ("id",),
                f'"{second}" and "{first}" {why}: they count as one contributor',
                f"one shop: delete this file, and write {{kind: contributor, was: {second}, now: "
                f"{first}}} under renamed in book.yaml; two: write each under not_same_as of the "
                "other",
            )


RULE = rule("EVD111", Severity.FIX, Scope.PART, check, kinds=("contributor",))
