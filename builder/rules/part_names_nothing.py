"""A name in a loom or an interface that leads nowhere.

What it catches
---------------
A housing of an end, a branch or a car's plug that the book has not; a wire of a loom that begins
or ends at something which is no end, branch or splice of it.

Why it matters in the bay
-------------------------
What nobody can draw, nobody can count cavities on. A wire to a branch that is not there is a wire
that somebody forgot, or one that lies loose.

Example
-------
Fails::

    ends:
      - {name: radio end, housing: two-row-16, plugs_into: radio, read_from: wire_side}
      - {name: car end, housing: socket-16, plugs_into: car, read_from: wire_side}
    wires:
      - {from: radoi end.1, to: branch 1}

Passes::

    ends:
      - {name: radio end, housing: two-row-16, plugs_into: radio, read_from: wire_side}
      - {name: car end, housing: socket-16, plugs_into: car, read_from: wire_side}
    branches:
      - {name: branch 1, length_m: 0.5}
    wires:
      - {from: radio end.1, to: branch 1}

How to mend it
--------------
Correct the spelling (the finding names the nearest), or add what is missing.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.parts import Interface, Loom
from builder.rules.rule import Scope, rule
from builder.rules.wording import did_you_mean, no_housing, sure_fix


def check(part: Loom | Interface, shelf: Shelf) -> Iterator[Fault]:
    """Yield every name in a loom or an interface that leads nowhere."""
    if isinstance(part, Interface):
        for index, housing in enumerate(part.needs.plugs):
            path = ("needs", "plugs", index)
            yield from _housing(path, housing, shelf, "nobody can tell which cars it fits")
        return
    yield from _housings(part, shelf)
    yield from _places(part)


def _housings(loom: Loom, shelf: Shelf) -> Iterator[Fault]:
    why = "its cavities cannot be counted"
    for index, end in enumerate(loom.ends):
        yield from _housing(("ends", index, "housing"), end.housing, shelf, why)
    for index, branch in enumerate(loom.branches):
        if branch.housing is not None:
            yield from _housing(("branches", index, "housing"), branch.housing, shelf, why)


def _housing(path: DataPath, name: str, shelf: Shelf, why: str) -> Iterator[Fault]:
    if name not in shelf.housings:
        yield no_housing(path, name, shelf.housings, why)


def _places(loom: Loom) -> Iterator[Fault]:
    known = list(loom.names.values())
    for index, wire in enumerate(loom.wires):
        for key, point in (("from", wire.start), ("to", wire.to)):
            if point is not None and point.place not in known:
                why = "the wire leads nowhere"
                path = ("wires", index, key)
                yield _missing(path, "end, branch or splice", point.place, known, why, point.cavity)


def _missing(
    path: DataPath, kind: str, name: str, known: Iterable[str], why: str, cavity: str = ""
) -> Fault:
    names = list(known)
    message = f'there is no {kind} "{name}": {why}'
    fix = None if cavity else sure_fix(path, name, names)
    return Fault(path, message, did_you_mean(name, names), fix=fix)


RULE = rule(
    "LOM101",
    Severity.STOP,
    Scope.PART,
    check,
    kinds=(
        "loom",
        "interface",
    ),
    partly=(Severity.STOP,),
)
