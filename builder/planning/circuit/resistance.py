"""What an ohmmeter reads between two nodes of a network of resistors."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from builder.planning.circuit.model import EndId
from builder.units import Ohms


def ohms_between(pieces: Iterable[tuple[EndId, EndId, Ohms]], one: EndId, other: EndId) -> Ohms:
    """Return the resistance between two nodes; infinite where nothing joins them. [Ω]

    Every node but the two is taken out in turn: the resistors that met there become one between
    each two of its neighbours, and resistors side by side become one.

    Args:
        pieces: Node, node and the ohms between them, above 0.
        one: A node.
        other: Another node, or the same.
    Source: Kirchhoff's laws; the transform of a star into a mesh.

    >>> ohms_between([("a", "b", 4.0), ("a", "b", 4.0), ("b", "c", 1.0)], "a", "c")
    3.0
    """
    if one == other:
        return 0.0
    siemens = _side_by_side(pieces)
    inner = sorted(siemens.keys() - {one, other}, key=lambda node: len(siemens[node]))
    for node in inner:
        _take_out(siemens, node)
    between = siemens.get(one, {}).get(other, 0.0)
    return 1 / between if between else inf


def _side_by_side(pieces: Iterable[tuple[EndId, EndId, Ohms]]) -> dict[EndId, dict[EndId, float]]:
    siemens: dict[EndId, dict[EndId, float]] = {}
    for one, other, ohm in pieces:
        if one != other:
            _add(siemens, one, other, 1 / ohm)
    return siemens


def _add(siemens: dict[EndId, dict[EndId, float]], one: EndId, other: EndId, more: float) -> None:
    for here, there in ((one, other), (other, one)):
        ways = siemens.setdefault(here, {})
        ways[there] = ways.get(there, 0.0) + more


def _take_out(siemens: dict[EndId, dict[EndId, float]], node: EndId) -> None:
    ways = list(siemens.pop(node).items())
    total = sum(each for _, each in ways)
    for at, (here, conducts) in enumerate(ways):
        del siemens[here][node]
        for there, other in ways[:at]:
            _add(siemens, here, there, conducts * other / total)
