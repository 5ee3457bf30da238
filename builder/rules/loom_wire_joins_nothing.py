"""A wire or a splice of a loom that joins nothing.

What it catches
---------------
A wire whose two ends are the same point, one that runs from one bare end to another, and a splice
at which fewer than two wires meet.

Why it matters in the bay
-------------------------
Such a wire is a slip of the pen, and the one that was meant is missing from the map that the loom
is rung out by.

Example
-------
Fails::

    wires:
      - {from: radio end.4, to: radio end.4}

Passes::

    wires:
      - {from: radio end.4, to: car end.4}

How to mend it
--------------
Ring the wire out and type where it ends; take out a splice that is none.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.parts import Loom
from builder.planning.looms.conductors import conductors
from builder.rules.rule import Scope, rule


def check(loom: Loom) -> Iterator[Fault]:
    """Yield wires from a point to itself or between bare ends, and splices that join nothing."""
    wires = conductors(loom)
    for wire in wires:
        if wire.start == wire.to or (wire.start.of and wire.to.of):
            same = wire.start[:2] == wire.to[:2]
            says = "both ends are the same" if same else "neither end is in a plug"
            message = f"the wire from {wire.start.place} to {wire.to.place} joins nothing: {says}"
            yield Fault(wire.path, message, "ring it out and type the cavity that it ends in")
    for index, splice in enumerate(loom.splices):
        meet = sum(splice.name in (wire.start.place, wire.to.place) for wire in wires)
        if meet < 2:
            yield Fault(
                ("splices", index, "name"),
                f"{meet or 'no'} wire{'' if meet == 1 else 's'} of this loom "
                f'{"ends" if meet == 1 else "end"} at "{splice.name}": a splice joins two or more',
                "let the wires end at it, or take it out",
            )


RULE = rule("LOM105", Severity.STOP, Scope.RECORD, check, kinds=("loom",))
