"""Two places of a loom with one name.

What it catches
---------------
Two ends, branches or splices of a loom that are called the same.

Why it matters in the bay
-------------------------
A wire that ends there could end at either.

Example
-------
Fails::

    branches:
      - {name: branch 1, length_m: 0.5}
      - {name: branch 1, length_m: 0.3}

Passes::

    branches:
      - {name: branch 1, length_m: 0.5}
      - {name: branch 2, length_m: 0.3}

How to mend it
--------------
Rename one of the two, and the wires that end there.

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
    """Yield every name that an earlier end, branch or splice has."""
    seen: set[str] = set()
    for path, name in loom.names.items():
        if name in seen:
            message = f'"{name}" is the name of two places of this loom: a wire could mean either'
            yield Fault(path, message, "rename one of them, and the wires that end there")
        seen.add(name)


RULE = rule("LOM104", Severity.STOP, Scope.RECORD, check, kinds=("loom",))
