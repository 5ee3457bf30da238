"""A branch or a splice of a loom that lies beyond its end.

What it catches
---------------
A branch that leaves, or a splice that lies, farther from the first end than the loom is long.

Why it matters in the bay
-------------------------
Wires are cut to these places: from a wrong one comes a wire that is too long or too short, and a
drawing with the branch in the air.

Example
-------
Fails::

    length_m: 0.3
    splices:
      - {name: splice 1, made: crimp, at_m: 0.4}

Passes::

    length_m: 0.3
    splices:
      - {name: splice 1, made: crimp, at_m: 0.22}

How to mend it
--------------
Measure from the back of the first end, along the bundle, in metres: 8 cm are 0.08.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.parts import Loom
from builder.rules.rule import Scope, rule


def check(loom: Loom) -> Iterator[Fault]:
    """Yield each place that lies beyond the second end."""
    if loom.length_m is None:
        return
    where = {each.name: ("branches", at) for at, each in enumerate(loom.branches)}
    where |= {each.name: ("splices", at) for at, each in enumerate(loom.splices)}
    for name, at_m in loom.lies_m.items():
        if at_m is not None and at_m > loom.length_m:
            at = shown(at_m, beside=loom.length_m)
            yield Fault(
                (*where[name], "at_m"),
                f"{name} lies {at} m from the first end, and the loom is "
                f"{shown(loom.length_m)} m long",
                "measure from the first end along the bundle, in metres: 8 cm are 0.08",
            )


RULE = rule("LOM118", Severity.FIX, Scope.RECORD, check, kinds=("loom",))
