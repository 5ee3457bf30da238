"""Nodes of a netlist: one for all ends that touch, with a short name, and what is found at each."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import CircuitWire, Element, EndId
from builder.planning.circuit.nets import joints_of
from builder.planning.circuit.spice_lines import GROUND, comment
from builder.planning.circuit.terminal_names import BATTERY_MINUS, ground_of


class Nodes:
    """The node of each end of a circuit: n1, n2 and so on in the order of units, then of wires."""

    def __init__(self, index: CircuitIndex) -> None:
        self.index = index
        self._nets = joints_of(index.circuit)
        self._names = {self._nets.of(BATTERY_MINUS): GROUND}
        for end in (*index.terminals, *self._leads()):
            self._names.setdefault(self._nets.of(end), f"n{len(self._names)}")

    def _leads(self) -> Iterator[EndId]:
        circuit = self.index.circuit
        pieces: tuple[CircuitWire | Element, ...] = (*circuit.wires, *circuit.elements)
        for piece in pieces:
            yield from piece.ends

    def of(self, end: EndId) -> str:
        """Return the node of an end."""
        return self._names[self._nets.of(end)]

    def joined(self, terminal: EndId) -> bool:
        """Whether anything is joined to a terminal."""
        return terminal in self.index.joints_of

    def ground_of(self, unit: str) -> str:
        """Return the node of a unit's ground terminal; the battery's post where it has none."""
        ground = ground_of(unit)
        return self.of(ground) if ground in self.index.terminals else GROUND

    def table(self) -> Iterator[str]:
        """Yield every unit, and under it the node of each of its terminals."""
        for unit in self.index.circuit.units:
            record = f", record {unit.record}" if unit.record else ""
            yield comment(f"unit: {unit.id} ({unit.kind.replace('_', ' ')}; {unit.place}{record})")
            for terminal in unit.terminals:
                yield comment(f'terminal "{terminal.id}" is {self.of(terminal.id)}')
