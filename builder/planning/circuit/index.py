"""A circuit looked up by id: what a name means, what touches what, where it is."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from builder.planning.circuit.model import (
    Circuit,
    CircuitWire,
    Element,
    EndId,
    Joint,
    Link,
    Terminal,
    Unit,
)

Piece = Terminal | CircuitWire | Element | Joint


class CircuitIndex:
    """The pieces of one circuit by id."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.units: dict[str, Unit] = {unit.id: unit for unit in circuit.units}
        self.terminals: dict[str, Terminal] = {each.id: each for each in circuit.terminals}
        self.wires: dict[str, CircuitWire] = {wire.id: wire for wire in circuit.wires}
        self.elements: dict[str, Element] = {part.id: part for part in circuit.elements}
        self.joints: dict[str, Joint] = {joint.id: joint for joint in circuit.joints}
        self.links: dict[str, Link] = {link.id: link for link in circuit.links}

    @cached_property
    def owners(self) -> dict[EndId, CircuitWire | Element]:
        """The wire or element of each end."""
        found: dict[EndId, CircuitWire | Element] = {}
        for wire in self.circuit.wires:
            found |= dict.fromkeys(wire.ends, wire)
        for part in self.circuit.elements:
            found |= dict.fromkeys(part.ends, part)
        return found

    @cached_property
    def joints_of(self) -> dict[EndId, list[Joint]]:
        """The joints that hold each end; a terminal may be held by several."""
        found: dict[EndId, list[Joint]] = {}
        for joint in self.circuit.joints:
            for end in joint.joins:
                found.setdefault(end, []).append(joint)
        return found

    def unit_of(self, terminal: str) -> Unit:
        """The unit of a terminal."""
        return self.units[self.terminals[terminal].unit]

    def is_of_loom(self, end: EndId) -> bool:
        """Whether an end is a cavity of a loom, or an end of a wire or a fuse of it."""
        owner = self.owners.get(end)
        if owner is None:
            return self.unit_of(end).kind == "loom"
        return bool(owner.loom)

    def wires_of(self, link: Link) -> Iterator[CircuitWire]:
        """The conductors of a link, in order."""
        return (self.wires[each] for each in link.path if each in self.wires)

    def elements_of(self, link: Link) -> Iterator[Element]:
        """The elements of a link, in order."""
        return (self.elements[each] for each in link.path if each in self.elements)

    def joints_on(self, link: Link) -> Iterator[Joint]:
        """The joints of a link, in order."""
        return (self.joints[each] for each in link.path if each in self.joints)

    def link_of(self, wire: CircuitWire) -> Link | None:
        """The first link that a conductor is part of, or None for a spare one."""
        return next((link for link in self.circuit.links if wire.id in link.path), None)

    def own_wires(self) -> Iterator[CircuitWire]:
        """The conductors that this job brings; those of the car stay as they are."""
        return (wire for wire in self.circuit.wires if not wire.stays)
