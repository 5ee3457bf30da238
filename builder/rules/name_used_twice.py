"""Two parts of one record have one name.

What it catches
---------------
Two plugs, visits, fuse positions, channel entries, parts of `access` or ways through a bulkhead of
one record with the same name.

Why it matters in the bay
-------------------------
"A.4" must be one cavity, and "s1" one visit with one meter. With two, a reading belongs to
nobody.

Example
-------
Fails::

    sessions:
      - {id: s1, date: 2024-05-13}
      - {id: s1, date: 2024-06-20}

Passes::

    sessions:
      - {id: s1, date: 2024-05-13}
      - {id: s2, date: 2024-06-20}

How to mend it
--------------
Rename one and correct what refers to it.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the later of two parts with one name."""
    yield from _repeated("plug", ((plug.id, (*plug.path, "id")) for plug in vehicle.plugs))
    yield from _repeated("visit", ((item.id, (*item.path, "id")) for item in vehicle.sessions))
    yield from _repeated(
        "channel", ((str(item.channel), (*item.path, "channel")) for item in vehicle.channels)
    )
    yield from _repeated("part", ((item.name, (*item.path, "name")) for item in vehicle.access))
    ways = ((item.name, (*item.path, "name")) for item in vehicle.passages)
    yield from _repeated("passage", ways)
    yield from _repeated(
        "fuse position",
        (
            (f"{item.panel} {item.position}", (*item.path, "position"))
            for item in vehicle.fuse_positions
        ),
    )


def _repeated(kind: str, names: Iterable[tuple[str, DataPath]]) -> Iterator[Fault]:
    seen: set[str] = set()
    for name, path in names:
        if name in seen:
            yield Fault(
                path,
                f'there are two {kind}s called "{name}": what refers to it could mean either',
                f"rename this {kind} and correct what refers to it",
            )
        seen.add(name)


RULE = rule("PIN117", Severity.STOP, Scope.RECORD, check)
