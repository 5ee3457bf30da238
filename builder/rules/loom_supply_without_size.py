"""A supply wire of a loom without a size.

What it catches
---------------
A wire of a loom that carries a supply or its ground, and of which nobody wrote down the size.

Why it matters in the bay
-------------------------
The whole radio is fed through it. Whether it is thick enough for its fuse cannot be told without
its size, so no plan can feed anything through this loom.

Example
-------
Fails::

    wires:
      - {through: [1], wire: {base: yellow}, carries: supply}

Passes::

    wires:
      - {through: [1], wire: {base: yellow, size_awg: 14}, carries: supply}

How to mend it
--------------
Read the size off the insulation, or measure the bare strands with a caliper, and type size_awg or
size_mm2.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.parts import Loom
from builder.rules.rule import Scope, rule


def check(loom: Loom) -> Iterator[Fault]:
    """Yield the wires of supplies and grounds that have no size."""
    for index, wire in enumerate(loom.wires):
        sized = wire.wire is not None and (wire.wire.size_mm2 or wire.wire.size_awg)
        if wire.carries in ("supply", "ground") and not sized:
            where = ", ".join(wire.through) or (wire.start.shown if wire.start else "")
            yield Fault(
                ("wires", index),
                f"the {wire.carries} wire at {where} has no size: nobody can tell what it carries",
                "read it off the insulation and type size_awg or size_mm2",
            )


RULE = rule("LOM110", Severity.WARN, Scope.RECORD, check, kinds=("loom",), not_known=Severity)
