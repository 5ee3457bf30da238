"""Which ends of a circuit are one node, and what continuity a meter would find."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from builder.planning.circuit.model import Circuit, Element, EndId


class Nets:
    """Sets of ends that are joined, by union and find."""

    def __init__(self) -> None:
        self._up: dict[EndId, EndId] = {}

    def of(self, end: EndId) -> EndId:
        """Return the name of the net of an end; an end alone is its own."""
        up = self._up
        root = up.get(end, end)
        while (above := up.get(root, root)) != root:
            root = above
        while (above := up.get(end, end)) != root:
            up[end], end = root, above
        return root

    def join(self, ends: Iterable[EndId]) -> None:
        """Make one net of all the ends."""
        first: EndId | None = None
        for end in ends:
            root = self.of(end)
            if first is None:
                first = root
            self._up[root] = first
            self._up.setdefault(first, first)

    def named(self) -> dict[EndId, EndId]:
        """Return the name of the net of every end that is joined to any."""
        return {end: self.of(end) for end in self._up}

    def together(self, one: EndId, other: EndId) -> bool:
        """Whether two ends are one net."""
        return self.of(one) == self.of(other)


def joints_of(circuit: Circuit) -> Nets:
    """Return the nodes: ends that touch in a joint, and nothing else."""
    nets = Nets()
    for joint in circuit.joints:
        nets.join(joint.joins)
    return nets


def continuity(
    circuit: Circuit, parts: Callable[[Element], bool] = lambda part: part.kind == "fuse"
) -> Nets:
    """Return what is joined through joints, conductors and the elements that count as closed."""
    nets = joints_of(circuit)
    for wire in circuit.wires:
        nets.join(wire.ends)
    for part in circuit.elements:
        if parts(part):
            nets.join(part.ends)
    return nets


def parts_on_way(circuit: Circuit) -> set[str]:
    """Return the parts that lie in the way of a link: sound and current run through them."""
    parts = {part.id for part in circuit.elements}
    return {each for link in circuit.links for each in link.path if each in parts}
