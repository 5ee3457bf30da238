"""A loom that changes wires over.

What it catches
---------------
A cavity of one end that reaches another cavity of the other end: two wires swapped, or a whole
plug filled as it is seen from its other face. Where the wires are cut at two branches whose plugs
go into each other, the same is a note: they are joined again by cavity. Two cavities of one end
that the loom joins give a warning, unless they are grounds.

Why it matters in the bay
-------------------------
The loom stands between the car and its radio. What it changes over, the car has changed over:
battery on the illumination, a speaker leg on ground.

Example
-------
Fails::

    wires:
      - {from: radio end.3, to: car end.4}
      - {from: radio end.4, to: car end.3}

Passes::

    wires:
      - {through: [3, 4]}

How to mend it
--------------
Ring the two wires out. When the loom really changes them over, put the terminals right and ring it
out again; when all are mirrored, one of the two plugs was counted on its other face.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.parts import Loom
from builder.model.parts.loom import Branch, LoomEnd
from builder.planning.looms.mates import mates_said
from builder.planning.looms.nets import Net, nets_of
from builder.proof.faces.poses import LEAST_COMPARED, mirror
from builder.rules.rule import Scope, rule

Crossing = tuple[str, str, DataPath]
"""A cavity of the one end, the cavity of the other that it reaches, and where that is said."""


def check(loom: Loom, shelf: Shelf) -> Iterator[Fault]:
    """Yield cavities that reach another one's place."""
    found = nets_of(loom)
    for first, second in combinations(loom.ends, 2):
        yield from _crossed(found, first, second, shelf)
    yield from _rejoined(loom, found, shelf)
    for end in loom.ends:
        yield from _joined(found, end)


def _crossed(
    found: tuple[Net, ...], first: LoomEnd, second: LoomEnd, shelf: Shelf
) -> Iterator[Fault]:
    crossings = [each for net in found for each in _crossings(net, first.name, second.name)]
    mirrored = _looks_mirrored(crossings, first, shelf)
    for one, other, path in crossings:
        yield Fault(
            path,
            f"{first.name}.{one} runs to {second.name}.{other}"
            + (", as if one of the two had been counted on its other face" if mirrored else ""),
            "ring both wires out; put the terminals right, or correct the cavity",
        )


def _crossings(net: Net, first: str, second: str) -> Iterator[Crossing]:
    ones, others = net.cavities(first), net.cavities(second)
    if ones and others and not {*ones} & {*others}:
        yield ones[0], others[0], net.conductors[0].path


def _looks_mirrored(crossings: list[Crossing], end: LoomEnd, shelf: Shelf) -> bool:
    housing = shelf.housings.get(end.housing)
    if housing is None or len(crossings) < LEAST_COMPARED:
        return False
    image = mirror(housing)
    return all(image.get(one) == other for one, other, _ in crossings)


def _rejoined(loom: Loom, found: tuple[Net, ...], shelf: Shelf) -> Iterator[Fault]:
    first, second = (end.name for end in loom.ends[:2])
    plugs = [branch for branch in loom.branches if _goes_into_another(branch, loom, shelf)]
    for one, other in combinations(plugs, 2):
        near = {cavity: net for net in found for cavity in net.cavities(one.name)}
        far = {cavity: net for net in found for cavity in net.cavities(other.name)}
        for cavity in (each for each in near if each in far):
            ends = (near[cavity].cavities(first), far[cavity].cavities(second))
            if all(ends) and not {*ends[0]} & {*ends[1]}:
                yield Fault(
                    near[cavity].conductors[0].path,
                    f"with {one.name} in {other.name}, {first}.{ends[0][0]} runs to "
                    f"{second}.{ends[1][0]}",
                    "join the cut wires by their cavities, not by these plugs",
                    severity=Severity.NOTE,
                )


def _goes_into_another(branch: Branch, loom: Loom, shelf: Shelf) -> bool:
    own = shelf.housings.get(branch.housing or "")
    others = (
        shelf.housings.get(each.housing or "") for each in loom.branches if each is not branch
    )
    return own is not None and any(each and mates_said(own, each) == "yes" for each in others)


def _joined(found: tuple[Net, ...], end: LoomEnd) -> Iterator[Fault]:
    for net in found:
        cavities = net.cavities(end.name)
        if len(cavities) > 1 and any(wire.carries != "ground" for wire in net.conductors):
            yield Fault(
                net.conductors[0].path,
                f"cavities {' and '.join(cavities)} of {end.name} are joined in this loom",
                "ring them out; say carries: ground where they are grounds",
                severity=Severity.WARN,
            )


RULE = rule("LOM106", Severity.STOP, Scope.PART, check, kinds=("loom",))
