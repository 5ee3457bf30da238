"""Two wires of a loom in one cavity.

What it catches
---------------
Two wires of a loom that end in the same cavity of the same plug.

Why it matters in the bay
-------------------------
A terminal takes one wire. Either one of the two is counted wrong, and it sits somewhere else, or
both are crimped together, which is a splice: then what hangs on one hangs on both.

Example
-------
Fails::

    wires:
      - {from: car end.3, to: radio end.3}
      - {from: car end.3, to: branch 1}

Passes::

    wires:
      - {from: car end.3, to: splice 1}
      - {from: splice 1, to: radio end.3}
      - {from: splice 1, to: branch 1}
    splices:
      - {name: splice 1, made: crimp}

How to mend it
--------------
Look into the cavity. Where two wires really meet, give the place a name under `splices` and let
all three wires end there.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.parts import Loom
from builder.planning.looms.conductors import Conductor, Terminal, conductors
from builder.rules.rule import Scope, rule


def check(loom: Loom) -> Iterator[Fault]:
    """Yield every wire in a cavity that an earlier one has."""
    first: dict[Terminal, Conductor] = {}
    for wire in conductors(loom):
        for end in dict.fromkeys((wire.start, wire.to)):
            before = first.setdefault(end, wire) if end.cavity else wire
            if before is not wire:
                other = before.other(end).shown
                yield Fault(
                    wire.path,
                    f"{end.shown} holds two wires, to {other} and to {wire.other(end).shown}",
                    "correct the cavity of one, or let both end at a splice",
                )


RULE = rule("LOM103", Severity.STOP, Scope.RECORD, check, kinds=("loom",))
