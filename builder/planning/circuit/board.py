"""The board on which a circuit is put together, piece by piece."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TypeVar

from builder.planning.circuit.model import (
    Circuit,
    CircuitWire,
    Element,
    EndId,
    Joint,
    Link,
    OpenEnd,
    Terminal,
    Unit,
)
from builder.planning.words import JointKind, UndoneHow, UnitKind

SLEEVE = "adhesive sleeve"
WRAP = "wrap of self-sealing tape"
"""What closes a joint beside a wire that stays whole: nothing can be slid over that one."""
OWN_LOOM = "the loom's own tape"
OWN_HOUSING = "the plug's own housing"
SCREWED = "the terminal's own cover"
IN_TAP = "the fuse tap's own housing"
ON_POST = "the post's own cover"
PAINTED = "paint or grease over it"
STAYS_FREE = "nothing: its terminal stays free"


@dataclass(slots=True)
class Board:
    """What has been put on so far. Everything is added once; a second time is a fault of ours."""

    units: dict[str, Unit] = field(default_factory=dict)
    wires: dict[str, CircuitWire] = field(default_factory=dict)
    elements: dict[str, Element] = field(default_factory=dict)
    joints: list[Joint] = field(default_factory=list)
    links: dict[str, Link] = field(default_factory=dict)
    open_ends: list[OpenEnd] = field(default_factory=list)

    def unit(self, id: str, kind: UnitKind, place: str, record: str = "") -> str:
        """Put a unit on, unless it is there; return its id."""
        self.units.setdefault(id, Unit(id, kind, place, (), record))
        return id

    def terminal(self, terminal: Terminal) -> EndId:
        """Give a unit a terminal, unless it has it; return its id."""
        unit = self.units[terminal.unit]
        if terminal.id not in {each.id for each in unit.terminals}:
            self.units[unit.id] = replace(unit, terminals=(*unit.terminals, terminal))
        return terminal.id

    def has(self, terminal: EndId) -> bool:
        """Whether a terminal is on."""
        return any(each.id == terminal for unit in self.units.values() for each in unit.terminals)

    def unit_of(self, terminal: EndId) -> str:
        """Return the id of the unit that has a terminal.

        Raises:
            StopIteration: no unit has it.
        """
        return next(
            unit.id
            for unit in self.units.values()
            if any(each.id == terminal for each in unit.terminals)
        )

    def wire(self, wire: CircuitWire) -> CircuitWire:
        """Put a conductor on.

        Raises:
            ValueError: there is one of that id.
        """
        size = wire.size.words if wire.size else ""
        return _once(self.wires, wire.id, replace(wire, conductor=size, colour=wire.colours))

    def element(self, element: Element) -> Element:
        """Put an element on.

        Raises:
            ValueError: there is one of that id.
        """
        return _once(self.elements, element.id, element)

    def join(
        self, kind: JointKind, place: str, *ends: EndId, closed_by: str, undone: UndoneHow
    ) -> str:
        """Let ends touch; return the joint's id."""
        joint = Joint(f"joint {len(self.joints) + 1}", kind, place, ends, closed_by, undone)
        self.joints.append(joint)
        return joint.id

    def joint_at(self, end: EndId) -> str:
        """Return the id of the joint that holds an end.

        Raises:
            StopIteration: nothing is joined there yet.
        """
        return next(joint.id for joint in self.joints if end in joint.joins)

    def joint_of(self, one: EndId, other: EndId) -> str:
        """Return the id of the joint in which two ends touch.

        Raises:
            StopIteration: they touch nowhere.
        """
        return next(joint.id for joint in self.joints if {one, other} <= {*joint.joins})

    def add_to_joint(self, end: EndId, *more: EndId) -> bool:
        """Let more ends touch in the joint that holds `end`; False where nothing holds it yet."""
        for at, joint in enumerate(self.joints):
            if end in joint.joins:
                self.joints[at] = replace(joint, joins=(*joint.joins, *more))
                return True
        return False

    def link(self, link: Link) -> Link:
        """Put a link on.

        Raises:
            ValueError: there is one of that id.
        """
        return _once(self.links, link.id, link)

    def leave_open(self, open_end: OpenEnd) -> None:
        """Say of an end that it stays open on purpose."""
        self.open_ends.append(open_end)

    def circuit(self) -> Circuit:
        """What stands on the board."""
        return Circuit(
            tuple(self.units.values()), tuple(self.wires.values()), tuple(self.elements.values()),
            tuple(self.joints), tuple(self.links.values()), tuple(self.open_ends),
        )  # fmt: skip


_Piece = TypeVar("_Piece")


def _once(there: dict[str, _Piece], id: str, piece: _Piece) -> _Piece:
    if id in there:
        raise ValueError(f"{id} is on the board already")
    there[id] = piece
    return piece
