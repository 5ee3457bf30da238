"""The ends of a loom counted on different faces.

What it catches
---------------
A loom of which one end was counted looking at the wires and another looking into the open face.

Why it matters in the bay
-------------------------
The other face shows a plug mirrored. Whoever fills in both ends as he sees them has mirrored one
of them, and cavity 1 of the one is then the last of the row of the other.

Example
-------
Fails::

    ends:
      - {name: radio end, housing: two-row-16, plugs_into: radio, read_from: wire_side}
      - {name: car end, housing: socket-16, plugs_into: car, read_from: mating_side}

Passes::

    ends:
      - {name: radio end, housing: two-row-16, plugs_into: radio, read_from: wire_side}
      - {name: car end, housing: socket-16, plugs_into: car, read_from: wire_side}

How to mend it
--------------
Count both ends on the same face, or by the numbers moulded into the housings; a ring-out by these
cavities tells whether one was mirrored.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from builder.findings import Fault, Severity
from builder.model.names import FACE_NAMES
from builder.model.parts import Loom
from builder.model.words import View
from builder.rules.rule import Scope, rule


def check(loom: Loom) -> Iterator[Fault]:
    """Yield each end that was counted on another face than the first that was counted by eye."""
    counted = [(at, end) for at, end in enumerate(loom.ends) if end.read_from in get_args(View)]
    for at, end in counted[1:]:
        first = counted[0][1]
        if end.read_from != first.read_from:
            yield Fault(
                ("ends", at, "read_from"),
                f"{end.name} was counted {FACE_NAMES[end.read_from]}, {first.name} "
                f"{FACE_NAMES[first.read_from]}: one of them may be mirrored",
                "count both on one face, or by the numbers moulded into the housings",
            )


RULE = rule("LOM107", Severity.WARN, Scope.RECORD, check, kinds=("loom",))
