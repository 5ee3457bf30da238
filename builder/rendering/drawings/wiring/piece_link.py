"""A piece for a phone: the link from the car's battery to a second one, from top to bottom."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire, Element, Link
from builder.planning.circuit.second_battery_links import THE_LINK
from builder.planning.circuit.supply_links import BODY, GROUND_POINT, THE_BODY, THE_STRAP
from builder.planning.circuit.terminal_names import BATTERY, SECOND
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.frame import sized
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TITLE, Frame, Scene
from builder.rendering.drawings.wiring.upright import LINE, SIDE, SIZE, WIDTH

PLUS_X, BODY_X = 34.0, 330.0
STRETCH, FUSE = 48.0, 32.0
BOX_RIGHT = 232.0
JOINS, BATTERY_HIGH = 62.0, 34.0
NAME_ROOM, LINK_ROOM, BESIDE_BOX = 120.0, 150.0, 74.0
BODY_BELOW = 36.0  # from what joins the two down to the ground point


class LinkPiece:
    """Draws both batteries, what joins them, and at the right the body."""

    def __init__(self, reading: Reading) -> None:
        self.reading, self.scene, self.index = reading, Scene(), reading.index
        self.link = self.index.links[THE_LINK]
        self.head = 2.0 + BATTERY_HIGH  # the foot of the car's battery
        self.second = 0.0  # the top of the second

    def draw(self) -> tuple[Scene, float]:
        """Return the scene and its height."""
        first, joins, last = self.index.elements_of(self.link)
        names = [each for each in self.link.path if each in self.index.wires]
        self._battery(BATTERY, 2.0)
        self.scene.mark("stud", (PLUS_X, self.head), *self.link.path[:2])
        foot = self._joins(joins, self._fused(names[:2], first, self.head))
        self.second = self._fused(names[2:], last, foot)
        self.scene.mark("stud", (PLUS_X, self.second), self.link.path[-1], self.link.path[-2])
        self._battery(SECOND, self.second)
        self._grounds(foot)
        return self.scene, self.second + BATTERY_HIGH + 4

    def _battery(self, name: str, y: float) -> None:
        box = (SIDE, y, WIDTH - 2 * SIDE, BATTERY_HIGH)
        self.scene.frames.append(Frame("battery", box, (name,), name))
        self.scene.say(name, WIDTH / 2, y + 21, size=TITLE, anchor="middle", bold=True)
        for x, sign in ((PLUS_X, "+"), (BODY_X, "−")):
            self.scene.say(sign, x, y + 22, size=TITLE, anchor="middle", bold=True)

    def _fused(self, names: list[str], fuse: Element, y: float) -> float:
        """A wire, a fuse, a wire, one below the other; returns the bottom."""
        at = self.link.path.index(fuse.id)
        y = self._wire(names[0], y)
        self.scene.mark("dot", (PLUS_X, y), self.link.path[at - 1])
        lay_bare(self.scene, (PLUS_X, y), (PLUS_X, y + FUSE), carries="supply")
        put_part(self.scene, "fuse", PLUS_X, y + FUSE / 2, fuse.id, fuse.rating)
        y += FUSE
        self.scene.mark("dot", (PLUS_X, y), self.link.path[at + 1])
        return self._wire(names[1], y)

    def _wire(self, name: str, y: float) -> float:
        wire = self.index.wires[name]
        lay(self.scene, wire, (PLUS_X, y), (PLUS_X, y + STRETCH))
        lines = wrap(sized(wire), LINK_ROOM, SIZE)
        first = y + STRETCH / 2 + 4 - LINE * (len(lines) - 1) / 2
        for row, line in enumerate(lines):
            self.scene.say(line, PLUS_X + 14, first + LINE * row, size=SIZE)
        return y + STRETCH

    def _joins(self, part: Element, y: float) -> float:
        """What joins the two, between its two terminals."""
        at, low = self.link.path.index(part.id), y + JOINS
        lay_bare(self.scene, (PLUS_X, y), (PLUS_X, low), carries="supply")
        put_part(self.scene, part.kind, PLUS_X, (y + low) / 2, part.id, "", upright=True)
        self.scene.mark("screw", (PLUS_X, y), self.link.path[at - 1])
        self.scene.mark("screw", (PLUS_X, low), self.link.path[at + 1])
        for unit in self.reading.units("battery_joiner"):
            box = (SIDE, y, BOX_RIGHT - SIDE, JOINS)
            self.scene.frames.append(Frame("unit", box, (unit.id,), unit.id))
        lines = wrap(part.purpose, NAME_ROOM, SIZE)
        top = (y + low) / 2 + 4 - LINE * len(lines) / 2
        for row, line in enumerate(lines):
            self.scene.say(line, PLUS_X + 24, top + LINE * row, size=SIZE, bold=True)
        self.scene.say(part.rating, PLUS_X + 24, top + LINE * len(lines), size=SIZE)
        return low

    def _grounds(self, foot: float) -> None:
        """What leads to the body, or, where nothing does, to the post of the car's battery."""
        body = BODY in self.index.units
        ground = foot + BODY_BELOW
        for link in self.reading.grounds:
            wire = next(iter(self.index.wires_of(link)), None)
            if wire is not None and self.index.unit_of(link.begins).id == SECOND:
                self._second_ground(link, wire, ground if body else self.head)
            elif wire is not None and self.reading.kind_of(link.begins) == "battery_joiner":
                self._joiner_ground(link, wire, foot, ground - 16 if body else self.head)
        if body:
            self._body(ground)

    def _second_ground(self, link: Link, wire: CircuitWire, to: float) -> None:
        """Up to the ground point, or to the post of the car's battery."""
        start, end = (BODY_X, self.second), (BODY_X, to)
        lay(self.scene, wire, start, end)
        self.scene.mark("stud", start, link.begins, link.path[1])
        self.scene.mark("stud", end, link.finishes, link.path[-2])
        lines = wrap(sized(wire), NAME_ROOM, SIZE)
        for row, line in enumerate(lines):
            y = self.second - 10 - LINE * (len(lines) - 1 - row)
            self.scene.say(line, BODY_X - 12, y, size=SIZE, anchor="end")

    def _joiner_ground(self, link: Link, wire: CircuitWire, foot: float, to: float) -> None:
        """To the right, then down to the ground point or up to the post of the car's battery."""
        start = (BOX_RIGHT, foot - 14)
        down = to > start[1]
        turn = BOX_RIGHT + 34 if down else BODY_X - 22
        end = (BODY_X, to) if down else (turn, to)
        lay(self.scene, wire, start, (turn, start[1]), (turn, to), end)
        self.scene.mark("screw", start, link.begins, link.path[1])
        self.scene.mark("stud", end, link.finishes, link.path[-2])
        self.scene.say("GND", BOX_RIGHT - 9, start[1] + 4, size=SIZE, anchor="end")
        lines = wrap(sized(wire), BESIDE_BOX if down else BESIDE_BOX - 18, SIZE)
        x, first = (BODY_X - 14, foot - 24) if down else (turn - 10, foot - 24)
        for row, line in enumerate(lines):
            y = first - LINE * (len(lines) - 1 - row)
            self.scene.say(line, x, y, size=SIZE, anchor="end")

    def _body(self, foot: float) -> None:
        """The body, the strap above it, the ground point at its foot."""
        ground, strap = self.index.links[THE_BODY], self.index.links[THE_STRAP]
        top = self.head + 56
        box = (BODY_X - 6, top - 8, 12.0, foot - top + 18)
        self.scene.frames.append(Frame("body", box, (BODY,), "the body"))
        lay(self.scene, self.index.wires[ground.path[2]], (BODY_X, foot), (BODY_X, top + 12))
        self.scene.mark("dot", (BODY_X, foot - 8), ground.path[1])
        self.scene.mark("dot", (BODY_X, top + 12), ground.path[3])
        lay(self.scene, self.index.wires[strap.path[2]], (BODY_X, top), (BODY_X, self.head))
        self.scene.mark("stud", (BODY_X, top), strap.path[0], strap.path[1])
        self.scene.mark("stud", (BODY_X, self.head), strap.path[-1], strap.path[-2])
        for words, y in ((strap.id, self.head + 28), ("the body", top + 34),
                         (GROUND_POINT, foot + 20)):  # fmt: skip
            self.scene.say(words, BODY_X - 14, y, size=SIZE, anchor="end")
