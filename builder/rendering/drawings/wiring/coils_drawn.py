"""A speaker of several voice coils: a box with the terminals of each, and the wires between them.

The terminals stand one below the other, each coil between its own two. In series the wires lie
between one coil and the next; side by side every other coil stands on its head, so that none of
the wires crosses another.
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.circuit.model import CircuitWire, Element, Unit
from builder.rendering.drawings.canvas import Anchor, Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TEXT, Frame, Scene

COIL_PITCH, NEXT_PITCH = 44.0, 24.0
"""From one terminal of a coil to the other, and from one coil to the next."""
ASIDE, NAME_AT, EDGE, NEAR_EDGE = 28.0, 15.0, 9.0, 26.0
COILS_AT = 12.0
"""From where other speakers stand to the terminals of one with coils."""
HEAD, FOOT = 22.0, 32.0
SIZE_ROOM = 15.0
"""From the first terminal up to the edge of the box, and from the last down to it: its name."""


@dataclass(frozen=True, slots=True)
class CoilStack:
    """The coils of a speaker with their two terminals each, from top to bottom."""

    unit: Unit
    coils: tuple[tuple[Element, str, str], ...]
    jumpers: tuple[CircuitWire, ...]
    names: dict[str, str]

    @property
    def heights(self) -> dict[str, float]:
        """Where each terminal stands below the first."""
        found: dict[str, float] = {}
        for at, (_, one, other) in enumerate(self.coils):
            top = at * (COIL_PITCH + NEXT_PITCH)
            found |= {one: top, other: top + COIL_PITCH}
        return found

    @property
    def bottom(self) -> float:
        """How far below the first terminal the box ends."""
        return max(self.heights.values()) + FOOT

    @property
    def reach(self) -> float:
        """How far below the first terminal there is anything: what its wires are made of."""
        return self.bottom + (SIZE_ROOM if self.size else 0.0)

    @property
    def size(self) -> str:
        """What the wires between its coils are made of, or "" where nobody knows."""
        found = dict.fromkeys(wire.size.words for wire in self.jumpers if wire.size)
        return " and ".join(found)

    @property
    def side_by_side(self) -> bool:
        """Whether each coil has a wire at either end to the next."""
        return len(self.jumpers) >= len(self.coils)

    @property
    def wide(self) -> float:
        """How far the box reaches from its terminals to the side of their names."""
        named = NAME_AT + max(text_width(name, TEXT) for name in self.names.values())
        around = ASIDE - NAME_AT if self.side_by_side else 0.0
        return max(named + around, text_width(self.unit.id, TEXT) - self.near) + EDGE

    @property
    def near(self) -> float:
        """How far the box reaches from its terminals to the side of the lanes."""
        return ASIDE + EDGE if self.side_by_side and len(self.coils) > 2 else NEAR_EDGE


def coil_stack(reading: Reading, speaker: str) -> CoilStack | None:
    """Return the coils of a speaker, or None where it is one terminal pair and nothing else."""
    unit, index = reading.index.units[speaker], reading.index
    own = {each.id: each.name for each in unit.terminals}

    def met_by(piece: CircuitWire | Element) -> list[str]:
        return [each for end in piece.ends for joint in index.joints_of.get(end, [])
                for each in joint.joins if each in own]  # fmt: skip

    coils = []
    for part in reading.circuit.elements:
        met = met_by(part)
        if part.kind == "coil" and len(met) == 2:
            coils.append((part, met[0], met[1]))
    if not coils:
        return None
    jumpers = tuple(wire for wire in reading.circuit.wires if len(met_by(wire)) == 2)
    if len(jumpers) >= len(coils):
        coils = [(part, *((other, one) if at % 2 else (one, other)))
                 for at, (part, one, other) in enumerate(coils)]  # fmt: skip
    return CoilStack(unit, tuple(coils), jumpers, own)


def draw_coils(scene: Scene, reading: Reading, stack: CoilStack, first: Point, side: int) -> None:
    """Draw the box from its first terminal downwards, the names at a side: 1 right, -1 left.

    The lanes end at the terminals of the speaker itself, from the other side.
    """
    (x, y), unit = first, stack.unit.id
    at = {each: (x, y + below) for each, below in stack.heights.items()}
    left, right = (x - stack.near, x + stack.wide) if side > 0 else (x - stack.wide, x + stack.near)
    box = (left, y - HEAD, right - left, HEAD + stack.bottom)
    scene.frames.append(Frame("unit", box, (unit,), unit))
    scene.say(unit, (left + right) / 2, y + stack.bottom - 8, anchor="middle", bold=True)
    if stack.size:
        scene.say(f"its wires: {stack.size}", right, y + stack.bottom + 13, anchor="end")
    for part, one, other in stack.coils:
        lay_bare(scene, at[one], at[other], carries=part.carries)
        put_part(scene, part.kind, x, (at[one][1] + at[other][1]) / 2, part.id, part.rating)
    for wire in stack.jumpers:
        _jumper(scene, reading, wire, at, (side, stack.wide))
    rise = -7.0 if stack.side_by_side else 4.0  # a wire leaves beside the terminal
    for each, place in at.items():
        joints = [joint.id for joint in reading.index.joints_of[each]]
        scene.mark("screw", place, each, *joints)
        anchor: Anchor = "start" if side > 0 else "end"
        scene.say(stack.names[each], x + side * NAME_AT, place[1] + rise, anchor=anchor)


def _jumper(
    scene: Scene, reading: Reading, wire: CircuitWire, at: dict[str, Point],
    room: tuple[int, float],
) -> None:  # fmt: skip
    """A wire straight to the next terminal, or round the coil between: + beyond the names."""
    side, wide = room
    ends = [each for own in wire.ends for joint in reading.index.joints_of[own]
            for each in joint.joins if each in at]  # fmt: skip
    (x, y1), (_, y2) = sorted(at[each] for each in ends)
    if y2 - y1 <= NEXT_PITCH:
        lay(scene, wire, (x, y1), (x, y2))
        return
    aside = x + side * (wide - EDGE) if wire.id.endswith("+") else x - side * ASIDE
    lay(scene, wire, (x, y1), (aside, y1), (aside, y2), (x, y2))
