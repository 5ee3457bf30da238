"""Between which two points of a link each piece lies: what a person mends in one go."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import EndId, Link


class Stretch(NamedTuple):
    """What runs between two points that can be read; of a pair, both legs."""

    link: str
    begins: str
    ends: str
    pieces: tuple[str, ...]

    @property
    def said(self) -> str:
        """The stretch in words."""
        return f"from {self.begins} to {self.ends}"


def stretches(index: CircuitIndex) -> dict[str, Stretch]:
    """Return the stretch of every joint and wire that a link runs through, by its id."""
    found: dict[str, Stretch] = {}
    for link in index.circuit.links:
        for stretch in _of_link(index, link):
            for piece in stretch.pieces:
                found.setdefault(piece, stretch)
    return found


def points_of(index: CircuitIndex, link: Link) -> list[int]:
    """Return where in the path of a link its points are: terminals, and parts on the way."""
    at = enumerate(link.path)
    return [n for n, each in at if each in index.terminals or each in index.elements]


def _of_link(index: CircuitIndex, link: Link) -> Iterator[Stretch]:
    points = points_of(index, link)
    for one, other in pairwise(points):
        pieces = link.path[one + 1 : other]
        if pieces:
            yield Stretch(link.id, _said(index, link, one), _said(index, link, other), pieces)


def _said(index: CircuitIndex, link: Link, at: int) -> str:
    """A point in words; of a pair whose legs run alike, both."""
    here, mate = link.path[at], index.links.get(link.mate or "")
    if mate is None or len(mate.path) != len(link.path):
        return here
    legs = (here, mate.path[at])
    first, second = legs[::-1] if link.finishes.endswith("−") else legs
    return first if first == second else _both(first, second)


def _both(plus: EndId, minus: EndId) -> str:
    """Two legs in few words.

    >>> _both("amp out 1 +", "amp out 1 −"), _both("A.1", "A.2")
    ('amp out 1', 'A.1 and A.2')
    """
    common = plus.removesuffix(" +")
    return common if minus == f"{common} −" else f"{plus} and {minus}"
