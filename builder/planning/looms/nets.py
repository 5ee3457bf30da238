"""What a loom joins: its points in groups, each group one net."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from builder.model.parts import Loom
from builder.planning.looms.conductors import Conductor, Terminal, conductors


class Net(NamedTuple):
    """Points that are joined: those that a probe reaches, in the order of the record; the wires."""

    terminals: tuple[Terminal, ...]
    conductors: tuple[Conductor, ...]

    def cavities(self, end: str) -> tuple[str, ...]:
        """Its cavities in an end or branch."""
        return tuple(each.cavity for each in self.terminals if each.place == end and each.cavity)

    def between(self, first: Terminal, other: Terminal) -> tuple[Conductor, ...]:
        """The wires from one of its points to another, over its splices."""
        ways: dict[Terminal, tuple[Conductor, ...]] = {first: ()}
        todo = [first]
        while todo and other not in ways:
            here = todo.pop()
            for wire in self.conductors:
                if here in (wire.start, wire.to) and wire.other(here) not in ways:
                    ways[wire.other(here)] = (*ways[here], wire)
                    todo.append(wire.other(here))
        return ways[other]


def nets_of(loom: Loom) -> tuple[Net, ...]:
    """Return the continuity map of a loom as it is recorded; every wired cavity is in one net."""
    return nets(conductors(loom), [end.name for end in loom.ends])


def nets(
    wires: Sequence[Conductor], ends: Sequence[str] = (), stubs: Iterable[Terminal] = ()
) -> tuple[Net, ...]:
    """Return what wires join.

    Args:
        wires: The single wires.
        ends: Names of ends; their points come first in each net, in this order.
        stubs: Points whose wire was cut and closed off: nets of one point.
    """
    groups: dict[Terminal, list[Terminal]] = {}
    for point in (*(p for wire in wires for p in (wire.start, wire.to)), *stubs):
        groups.setdefault(point, [point])
    for wire in wires:
        _merge(groups, wire.start, wire.to)
    found: dict[int, list[Terminal]] = {id(group): group for group in groups.values()}
    return tuple(_net(group, wires, ends) for group in found.values() if not _hidden(group))


def _merge(groups: dict[Terminal, list[Terminal]], first: Terminal, second: Terminal) -> None:
    one, other = groups[first], groups[second]
    if one is not other:
        one += other
        groups.update(dict.fromkeys(other, one))


def _hidden(group: list[Terminal]) -> bool:
    return all(point.is_splice for point in group)


def _net(group: list[Terminal], wires: Sequence[Conductor], ends: Sequence[str]) -> Net:
    place = defaultdict(lambda: len(ends), {name: at for at, name in enumerate(ends)})
    reached = sorted(
        (p for p in group if not p.is_splice), key=lambda p: (place[p.place], p.by_number)
    )
    return Net(tuple(reached), tuple(wire for wire in wires if wire.start in group))


def through_cavities(loom: Loom) -> tuple[str, ...]:
    """Return the cavities of the first end that reach the same cavity of the second."""
    first, second = (end.name for end in loom.ends[:2])
    return tuple(
        cavity
        for net in nets_of(loom)
        for cavity in net.cavities(first)
        if cavity in net.cavities(second)
    )
