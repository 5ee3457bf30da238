"""A cavity that a plug of a loom does not have.

What it catches
---------------
A wire of a loom in a cavity that the housing of its end or branch does not draw, or that is
moulded shut; a wire that ends at a plug without saying in which cavity; a cavity of a branch or
splice that has no plug.

Why it matters in the bay
-------------------------
A wire of a loom is known by its cavities and by nothing else. One that sits nowhere cannot be rung
out, cut or left alone.

Example
-------
Fails::

    # the housing of the radio end has cavities 1 to 8
    wires:
      - {from: radio end.17, to: branch 1}

Passes::

    wires:
      - {from: radio end.7, to: branch 1}

How to mend it
--------------
Look at the plug again: correct the cavity, name the right housing, or complete the rows of the
housing record.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.parts import Loom
from builder.model.parts.loom_wires import Point
from builder.rules.rule import Scope, rule


def check(loom: Loom, shelf: Shelf) -> Iterator[Fault]:
    """Yield every point of a wire that is no cavity where it should be one, or the reverse."""
    plugs = {end.name: shelf.housings.get(end.housing) for end in loom.ends}
    plugs |= {each.name: shelf.housings.get(each.housing) for each in loom.branches if each.housing}
    bare = {*loom.names.values()} - plugs.keys()
    for path, point in _points(loom):
        if point.place in plugs:
            yield from _in_a_plug(path, point, plugs)
        elif point.place in bare and point.cavity:
            yield Fault(
                path,
                f'"{point.place}" is no plug, so it has no cavity "{point.cavity}"',
                f"type {point.place}, or give it the housing that it ends in",
            )


def _points(loom: Loom) -> Iterator[tuple[DataPath, Point]]:
    for index, wire in enumerate(loom.wires):
        for key, point in (("from", wire.start), ("to", wire.to)):
            if point is not None:
                yield ("wires", index, key), point
        for at, cavity in enumerate(wire.through):
            for end in loom.ends[:2]:
                yield ("wires", index, "through", at), Point(end.name, cavity)


def _in_a_plug(
    path: DataPath, point: Point, plugs: Mapping[str, Housing | None]
) -> Iterator[Fault]:
    housing = plugs[point.place]
    if not point.cavity:
        message = f'the wire ends at "{point.place}", and nobody knows in which cavity'
        yield Fault(path, message, f"type the cavity behind it, like {point.place}.1")
    elif housing is not None and point.cavity not in housing.cavities:
        yield Fault(
            path,
            f'housing "{housing.id}" of "{point.place}" has no cavity "{point.cavity}": it has '
            f"{len(housing.cavities)}, from {housing.cavities[0]} to {housing.cavities[-1]}",
            "correct the cavity, or name the housing that has it",
        )
    elif housing is not None and point.cavity in housing.blocked:
        message = f'cavity "{point.cavity}" of "{point.place}" is moulded shut: no wire sits there'
        yield Fault(path, message, "look at the plug again and correct the cavity")


RULE = rule("LOM102", Severity.STOP, Scope.PART, check, kinds=("loom",))
