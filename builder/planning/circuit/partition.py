"""What hangs together in a circuit and in many that differ from it in little.

A fault changes one piece of hundreds. The nets of the healthy circuit are worked out once, and of
one with a fault only those that the changed pieces are in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Generic, TypeVar

from builder.planning.circuit.model import EndId
from builder.planning.circuit.nets import Nets

Piece = TypeVar("Piece")
Ends = tuple[EndId, ...]


class Partition(Generic[Piece]):
    """The nets of some pieces, each of which joins its ends.

    Args:
        pieces: Whatever joins ends. They are known again by being the same objects.
        ends_of: What a piece joins.
    """

    def __init__(self, pieces: Iterable[Piece], ends_of: Callable[[Piece], Ends]) -> None:
        self._pieces = {id(piece): (piece, ends_of(piece)) for piece in pieces}
        self._ends_of: Callable[[Piece], Ends] = ends_of
        self.net_of: Mapping[EndId, EndId] = _joined(ends for _, ends in self._pieces.values())
        self._ends_in: dict[EndId, list[EndId]] = {}
        self._pieces_in: dict[EndId, list[int]] = {}
        for end, net in self.net_of.items():
            self._ends_in.setdefault(net, []).append(end)
        for at, (_, ends) in self._pieces.items():
            self._pieces_in.setdefault(self.net_of[ends[0]], []).append(at)

    def of(self, pieces: Iterable[Piece]) -> Mapping[EndId, EndId]:
        """Return the net of each end that any of these pieces joins, by the name of one of its
        ends; an end that is left alone is its own."""
        there = {id(piece): piece for piece in pieces}
        gone, new = self._pieces.keys() - there.keys(), there.keys() - self._pieces.keys()
        if not gone and not new:
            return self.net_of
        return self._changed(gone, [self._ends_of(there[at]) for at in there if at in new])

    def _changed(self, gone: set[int], more: list[Ends]) -> Mapping[EndId, EndId]:
        touched = [
            *(self._pieces[at][1][0] for at in gone),
            *(end for ends in more for end in ends),
        ]
        nets = {self.net_of[end] for end in touched if end in self.net_of}
        left = (
            self._pieces[at][1] for net in nets for at in self._pieces_in[net] if at not in gone
        )
        found = dict(self.net_of)
        for net in nets:
            found.update((end, end) for end in self._ends_in[net])
        found.update(_joined([*left, *more]))
        return found


def _joined(groups: Iterable[Ends]) -> dict[EndId, EndId]:
    nets = Nets()
    for ends in groups:
        nets.join(ends)
    return nets.named()
