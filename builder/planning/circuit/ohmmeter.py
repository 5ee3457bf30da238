"""What an ohmmeter reads between two ends of a dead circuit: all ways through it together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from math import inf

from builder.planning.circuit.model import Circuit, EndId
from builder.planning.circuit.nets import joints_of
from builder.planning.circuit.resistance import ohms_between
from builder.planning.circuit.terminal_names import coiled_speaker, legs_of
from builder.units import Ohms

WIRE_OHM = 0.02
"""What a good wire of a car reads on the ohms range, leads taken off. Common practice. [Ω]"""

UNREAD_SPEAKER_OHM = 4.0
"""A speaker whose ohms nobody recorded. [Ω]"""


Way = tuple[tuple[EndId, EndId], Ohms]
"""What conducts: its two ends, and its ohms."""


def conducting(circuit: Circuit, dc_share: float) -> Iterator[tuple[object, Way]]:
    """Yield each piece of a circuit that an ohmmeter reads through, with its ends and ohms.

    `dc_share` is what it reads of a speaker's nominal ohms.
    """
    for wire in circuit.wires:
        yield wire, (wire.ends, WIRE_OHM)
    for part in circuit.elements:
        if part.kind in ("fuse", "resistor", "coil", "low-pass"):  # a high-pass has a capacitor
            ohm = part.value if part.kind in ("resistor", "coil") else WIRE_OHM
            yield part, (part.ends, ohm * dc_share if part.kind == "coil" else ohm)
    coiled = {coiled_speaker(part.id) for part in circuit.elements if part.kind == "coil"}
    for unit in circuit.units:
        if unit.kind in ("speaker", "factory_speaker") and unit.id not in coiled:
            read = next((each.in_ohm for each in unit.terminals if each.in_ohm), None)
            yield unit, (legs_of(unit.id), (read or UNREAD_SPEAKER_OHM) * dc_share)


class Ohmmeter:
    """The resistances of a circuit.

    Args:
        ways: What conducts in it.
        nodes: Which ends touch in a joint, by the name of one of them.
        islands: What hangs together by anything that conducts, likewise: only that can matter
            between two ends.
    """

    def __init__(
        self, ways: Iterable[Way], nodes: Mapping[EndId, EndId], islands: Mapping[EndId, EndId]
    ) -> None:
        self._ways, self._node_of, self._island_of = ways, nodes, islands
        self._read: dict[tuple[EndId, EndId], Ohms] = {}

    @classmethod
    def of(cls, circuit: Circuit, dc_share: float) -> Ohmmeter:
        """Return the ohmmeter of one circuit by itself."""
        ways = [way for _, way in conducting(circuit, dc_share)]
        islands = joints_of(circuit)
        for ends, _ in ways:
            islands.join(ends)
        return cls(ways, joints_of(circuit).named(), islands.named())

    def island(self, end: EndId) -> EndId:
        """Return the name of all that an end hangs together with."""
        return self._island_of.get(end, end)

    def between(self, one: EndId, other: EndId) -> Ohms:
        """Return what it reads between two ends, everything side by side counted. [Ω]"""
        first, second = self._node_of.get(one, one), self._node_of.get(other, other)
        if (first, second) not in self._read:
            self._read[first, second] = self._solved(first, second)
        return self._read[first, second]

    def _solved(self, first: EndId, second: EndId) -> Ohms:
        """Nothing is worked out where no way leads from one to the other."""
        island = self.island(first)
        if first != second and self.island(second) != island:
            return inf
        return ohms_between(self._ways_on.get(island, ()), first, second)

    @cached_property
    def _ways_on(self) -> dict[EndId, list[tuple[EndId, EndId, Ohms]]]:
        found: dict[EndId, list[tuple[EndId, EndId, Ohms]]] = {}
        for (one, other), ohm in self._ways:
            node, end = self._node_of.get(one, one), self._node_of.get(other, other)
            found.setdefault(self.island(one), []).append((node, end, ohm))
        return found
