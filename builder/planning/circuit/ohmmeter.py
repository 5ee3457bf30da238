"""What an ohmmeter reads between two ends of a dead circuit: all ways through it together."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from math import inf

from builder.planning.circuit.model import Circuit, EndId
from builder.planning.circuit.nets import Nets, joints_of
from builder.planning.circuit.resistance import ohms_between
from builder.planning.circuit.terminal_names import coiled_speaker, legs_of
from builder.units import Ohms

WIRE_OHM = 0.02
"""What a good wire of a car reads on the ohms range, leads taken off. Common practice. [Ω]"""

UNREAD_SPEAKER_OHM = 4.0
"""A speaker whose ohms nobody recorded. [Ω]"""


class Ohmmeter:
    """The resistances of a circuit; `dc_share` is what it reads of a speaker's nominal ohms.

    `nodes` are the nets of its joints by end, where they are known already.
    """

    def __init__(
        self, circuit: Circuit, dc_share: float, nodes: Mapping[EndId, EndId] | None = None
    ) -> None:
        self.circuit = circuit
        self._node_of = joints_of(circuit).named() if nodes is None else nodes
        self._dc_share = dc_share
        self._read: dict[tuple[EndId, EndId], Ohms] = {}

    def between(self, one: EndId, other: EndId) -> Ohms:
        """Return what it reads between two ends, everything side by side counted. [Ω]"""
        first, second = self._node_of.get(one, one), self._node_of.get(other, other)
        if (first, second) not in self._read:
            self._read[first, second] = self._solved(first, second)
        return self._read[first, second]

    def _solved(self, first: EndId, second: EndId) -> Ohms:
        """Nothing is worked out where no way leads from one to the other."""
        island = self._islands.of(first)
        if first != second and self._islands.of(second) != island:
            return inf
        return ohms_between(self._ways_on.get(island, ()), first, second)

    @cached_property
    def _islands(self) -> Nets:
        """What hangs together by anything that conducts: only that can matter between two ends."""
        islands = Nets()
        for one, other, _ in self._ways:
            islands.join((one, other))
        return islands

    @cached_property
    def _ways_on(self) -> dict[EndId, list[tuple[EndId, EndId, Ohms]]]:
        found: dict[EndId, list[tuple[EndId, EndId, Ohms]]] = {}
        for way in self._ways:
            found.setdefault(self._islands.of(way[0]), []).append(way)
        return found

    @cached_property
    def _ways(self) -> list[tuple[EndId, EndId, Ohms]]:
        """What conducts between two nodes, with its ohms."""
        node_of, share = self._node_of, self._dc_share
        pieces = [(wire.ends, WIRE_OHM) for wire in self.circuit.wires]
        for part in self.circuit.elements:
            if part.kind in ("fuse", "resistor", "coil"):
                ohm = WIRE_OHM if part.kind == "fuse" else part.value
                pieces.append((part.ends, ohm * share if part.kind == "coil" else ohm))
        elements = self.circuit.elements
        coiled = {coiled_speaker(part.id) for part in elements if part.kind == "coil"}
        for unit in self.circuit.units:
            if unit.kind in ("speaker", "factory_speaker") and unit.id not in coiled:
                read = next((each.in_ohm for each in unit.terminals if each.in_ohm), None)
                pieces.append((legs_of(unit.id), (read or UNREAD_SPEAKER_OHM) * share))
        return [
            (node_of.get(one, one), node_of.get(other, other), ohm) for (one, other), ohm in pieces
        ]
