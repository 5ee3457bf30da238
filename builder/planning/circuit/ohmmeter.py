"""What an ohmmeter reads between two ends of a dead circuit: the shortest way through it."""

from __future__ import annotations

from functools import cached_property
from heapq import heappop, heappush
from math import inf

from builder.planning.circuit.model import Circuit, EndId
from builder.planning.circuit.nets import Nets, joints_of
from builder.planning.circuit.terminal_names import legs_of
from builder.units import Ohms

WIRE_OHM = 0.02
"""What a good wire of a car reads on the ohms range, leads taken off. Common practice. [Ω]"""

UNREAD_SPEAKER_OHM = 4.0
"""A speaker whose ohms nobody recorded. [Ω]"""


class Ohmmeter:
    """The resistances of a circuit; `dc_share` is what it reads of a speaker's nominal ohms."""

    def __init__(self, circuit: Circuit, dc_share: float) -> None:
        self.circuit = circuit
        self._dc_share = dc_share

    def between(self, one: EndId, other: EndId) -> Ohms:
        """Return what it reads between two ends: the least path. [Ω]"""
        nodes, ways = self._nodes, self._ways
        far: dict[EndId, Ohms] = {nodes.of(one): 0.0}
        queue: list[tuple[Ohms, EndId]] = [(0.0, nodes.of(one))]
        while queue:
            so_far, here = heappop(queue)
            if here == nodes.of(other):
                return so_far
            for there, ohm in ways.get(here, ()):
                if so_far + ohm < far.get(there, inf):
                    far[there] = so_far + ohm
                    heappush(queue, (so_far + ohm, there))
        return inf

    @cached_property
    def _nodes(self) -> Nets:
        return joints_of(self.circuit)

    @cached_property
    def _ways(self) -> dict[EndId, list[tuple[EndId, Ohms]]]:
        """From each node the next ones, with what lies between."""
        nodes = self._nodes
        ways: dict[EndId, list[tuple[EndId, Ohms]]] = {}
        pieces = [(wire.ends, WIRE_OHM) for wire in self.circuit.wires]
        for part in self.circuit.elements:
            if part.kind in ("fuse", "resistor"):
                pieces.append((part.ends, WIRE_OHM if part.kind == "fuse" else part.value))
        for unit in self.circuit.units:
            if unit.kind not in ("speaker", "factory_speaker"):
                continue
            ohm = next((each.in_ohm for each in unit.terminals if each.in_ohm), None)
            pieces.append((legs_of(unit.id), (ohm or UNREAD_SPEAKER_OHM) * self._dc_share))
        for (one, other), ohm in pieces:
            ways.setdefault(nodes.of(one), []).append((nodes.of(other), ohm))
            ways.setdefault(nodes.of(other), []).append((nodes.of(one), ohm))
        return ways
