"""A job as it was handed over, and what is worked out of it once for every fault."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.planning.circuit.bench import Sound
from builder.planning.circuit.model import Circuit, CircuitWire, Element, EndId, Joint, Unit
from builder.planning.circuit.nets import parts_on_way
from builder.planning.circuit.ohmmeter import Ohmmeter, conducting
from builder.planning.circuit.partition import Partition
from builder.planning.circuit.terminal_names import legs_of
from builder.planning.comeback.words import When


@dataclass(frozen=True)
class Healthy:
    """A job as it was handed over: its circuit, how sound runs, when each source is live.

    What hangs together in it is worked out once, and of each fault only what that changes.
    """

    circuit: Circuit
    sound: Sound
    live: Mapping[EndId, frozenset[When]]

    @cached_property
    def _on_way(self) -> set[str]:
        return parts_on_way(self.circuit)

    @cached_property
    def _nets(self) -> Partition[Joint | CircuitWire | Element]:
        return Partition(self._joining(self.circuit), _ends_of)

    @cached_property
    def _nodes(self) -> Partition[Joint | CircuitWire | Element]:
        return Partition(self.circuit.joints, _ends_of)

    def _joining(self, circuit: Circuit) -> list[Joint | CircuitWire | Element]:
        parts = (part for part in circuit.elements if part.id in self._on_way)
        return [*circuit.joints, *circuit.wires, *parts]

    @cached_property
    def _newest(self) -> list[tuple[Circuit, Mapping[EndId, EndId]]]:
        """The circuit asked for last, with its nets: the times of a day share them."""
        return []

    def nets_of(self, circuit: Circuit) -> Mapping[EndId, EndId]:
        """Return the net of each end of the circuit with a fault in it."""
        if not (self._newest and _joined_alike(self._newest[0][0], circuit)):
            self._newest[:] = [(circuit, self._nets.of(self._joining(circuit)))]
        return self._newest[0][1]

    def ohmmeter_of(self, circuit: Circuit) -> Ohmmeter:
        """Return the ohmmeter of the circuit with a fault in it."""
        pieces = list(conducting(circuit, self.sound.dc_share))
        islands = self._islands.of([*circuit.joints, *(piece for piece, _ in pieces)])
        ways = [way for _, way in pieces]
        return Ohmmeter(ways, self._nodes.of(circuit.joints), islands)

    @cached_property
    def _islands(self) -> Partition[object]:
        every = [*self.circuit.joints, *(piece for piece, _ in conducting(self.circuit, 1.0))]
        return Partition(every, _ends_of_any)


def _joined_alike(one: Circuit, other: Circuit) -> bool:
    """Whether the very same pieces join two circuits; their units may differ."""
    return (
        one.joints is other.joints
        and one.wires is other.wires
        and one.elements is other.elements
        and one.links is other.links
    )


def _ends_of_any(piece: object) -> tuple[EndId, ...]:
    """What a piece joins for an ohmmeter; of a speaker its own two legs."""
    if isinstance(piece, Unit):
        return legs_of(piece.id)
    assert isinstance(piece, Joint | CircuitWire | Element)
    return _ends_of(piece)


def _ends_of(piece: Joint | CircuitWire | Element) -> tuple[EndId, ...]:
    return piece.joins if isinstance(piece, Joint) else piece.ends
