"""The link to a second battery, above everything: out from the car's battery, back to the second.

At its right end lies what joins the two: the contacts of a relay, a charger or a diode.
"""

from __future__ import annotations

from builder.planning.circuit.model import Element, Link, Unit
from builder.planning.circuit.second_battery_links import THE_LINK
from builder.planning.circuit.terminal_names import BATTERY, SECOND
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width, wrap
from builder.rendering.drawings.wiring.canvas_marks import (
    fitting,
    lay,
    lay_bare,
    part_width,
    put_part,
)
from builder.rendering.drawings.wiring.frame import Columns, sized
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TEXT, TITLE, Frame, Scene

UP_Y, DOWN_Y = 34.0, 76.0  # the way out, and the way back
NAMED = 34.0  # beside a name: wire on both sides
CONTACTS_X = 22.0  # from the left edge of what joins to its contacts
NAME_X = 40.0
NAME_ROOM = 96.0
BOX_TOP, BOX_FOOT = 14.0, 94.0
GND_Y = 80.0


def joiner_x(reading: Reading, cols: Columns) -> float:
    """Return the left edge of what joins the batteries: behind the names of the way out."""
    link = reading.index.links[THE_LINK]
    lead, wire, *_ = reading.index.wires_of(link)
    fuse = next(iter(reading.index.elements_of(link)))
    x, _, wide, _ = cols.batteries.own
    words = text_width(sized(lead), TEXT) + text_width(sized(wire), TEXT)
    return x + wide + words + 2 * NAMED + part_width(fuse.rating) + 10


def joiner_ground(reading: Reading, cols: Columns) -> Point:
    """Return where its ground is clamped."""
    (unit,) = reading.units("battery_joiner")
    return joiner_x(reading, cols) + _wide(unit.id), GND_Y


def _wide(name: str) -> float:
    return NAME_X + max(text_width(line, TEXT) for line in _lines(name)) * 1.08 + 10


def _lines(name: str) -> list[str]:
    return wrap(name, NAME_ROOM, TEXT)


class LinkDrawn:
    """Draws the car's battery and its link, where there is a second battery."""

    def __init__(self, scene: Scene, reading: Reading, cols: Columns) -> None:
        self.scene, self.reading, self.cols = scene, reading, cols

    def draw(self) -> None:
        """Draw it all, or nothing where the car's battery feeds."""
        link = self.reading.index.links.get(THE_LINK)
        if link is None or SECOND not in self.reading.index.units:
            return
        self._battery()
        wires = [each for each in link.path if each in self.reading.index.wires]
        first, joins, last = self.reading.index.elements_of(link)
        x = joiner_x(self.reading, self.cols)
        self._out(link, first, wires[:2], x)
        self._joins(link, joins, x)
        self._back(link, last, wires[2:], x)

    def _battery(self) -> None:
        x, y, w, h = self.cols.batteries.own
        self.scene.frames.append(Frame("battery", (x, y, w, h), (BATTERY,), BATTERY))
        self.scene.say(BATTERY, x + w / 2, y + h - 7, size=TITLE, anchor="middle", bold=True)
        self.scene.say("+", x + w - 10, UP_Y + 4, anchor="end", bold=True)
        self.scene.say("−", self.cols.batteries.strap_x + 1, y + h - 22, anchor="middle",
                       bold=True)  # fmt: skip

    def _out(self, link: Link, fuse: Element, names: list[str], to: float) -> None:
        """Post, lead, fuse, link: to what joins."""
        x, _, wide, _ = self.cols.batteries.own
        lead, wire = (self.reading.index.wires[each] for each in names)
        half = part_width(fuse.rating) / 2 + 5
        at = x + wide + text_width(sized(lead), TEXT) + NAMED + half
        self._stretch(names[0], (x + wide, UP_Y), (at - half, UP_Y))
        self._fuse(link, fuse, (at, UP_Y), half, before=at - half)
        self._stretch(names[1], (at + half, UP_Y), (to, UP_Y))
        self.scene.mark("stud", (x + wide, UP_Y), link.path[0], link.path[1])
        self.scene.mark("screw", (to, UP_Y), self._joint_behind(link, wire.id))
        assert lead.id == names[0]

    def _back(self, link: Link, fuse: Element, names: list[str], x: float) -> None:
        """From what joins to the second battery, which it meets from above."""
        left, top, wide, _ = self.cols.batteries.feeding
        post = (left + wide - 16, top)
        last = self.reading.index.wires[names[1]]
        half = part_width(fuse.rating) / 2 + 5
        room = (x - post[0]) - 2 * half
        share = room * _share(*(sized(self.reading.index.wires[each]) for each in names))
        at = post[0] + share + half
        self._stretch(names[0], (x, DOWN_Y), (at + half, DOWN_Y))
        self._fuse(link, fuse, (at, DOWN_Y), half, before=at + half)
        name = fitting(share, sized(last), last.id)
        lay(self.scene, last, (at - half, DOWN_Y), (post[0], DOWN_Y), post, name=name,
            at=((at - half + post[0]) / 2, DOWN_Y))  # fmt: skip
        self.scene.mark("screw", (x, DOWN_Y), self._joint_before(link, names[0]))
        self.scene.mark("stud", post, link.path[-1], link.path[-2])

    def _stretch(self, name: str, start: Point, end: Point) -> None:
        wire = self.reading.index.wires[name]
        said = fitting(abs(end[0] - start[0]), sized(wire), wire.id)
        lay(self.scene, wire, start, end, name=said, at=((start[0] + end[0]) / 2, start[1]))

    def _fuse(self, link: Link, fuse: Element, at: Point, half: float, *, before: float) -> None:
        """A fuse on its stretch; `before` is the side from which current comes."""
        (x, y), place = at, link.path.index(fuse.id)
        lay_bare(self.scene, (x - half, y), (x + half, y), carries="supply")
        put_part(self.scene, "fuse", x, y, fuse.id, fuse.rating)
        behind = 2 * x - before
        self.scene.mark("dot", (before, y), link.path[place - 1])
        self.scene.mark("dot", (behind, y), link.path[place + 1])

    def _joins(self, link: Link, part: Element, x: float) -> None:
        """Its contacts between the two ways, in its box where it is a unit by itself."""
        at = x + CONTACTS_X
        lay_bare(self.scene, (x, UP_Y), (at, UP_Y), (at, DOWN_Y), (x, DOWN_Y), carries="supply")
        put_part(self.scene, part.kind, at, (UP_Y + DOWN_Y) / 2, part.id, "", upright=True)
        for unit in self.reading.units("battery_joiner"):
            self._box(unit, x)
        lines = _lines(part.purpose)
        for row, line in enumerate(lines):
            self.scene.say(line, x + NAME_X, UP_Y + 4 + 13 * row, bold=True)
        self.scene.say(part.rating, x + NAME_X, UP_Y + 4 + 13 * len(lines))
        assert part.id in link.path

    def _box(self, unit: Unit, x: float) -> None:
        wide = _wide(unit.id)
        box = (x, BOX_TOP, wide, BOX_FOOT - BOX_TOP)
        self.scene.frames.append(Frame("unit", box, (unit.id,), unit.id))
        self.scene.say("GND", x + wide - 9, GND_Y + 4, anchor="end")

    def _joint_behind(self, link: Link, piece: str) -> str:
        return link.path[link.path.index(piece) + 1]

    def _joint_before(self, link: Link, piece: str) -> str:
        return link.path[link.path.index(piece) - 1]


def _share(before: str, behind: str) -> float:
    """How much of a stretch the name nearer to the second battery takes."""
    one, other = text_width(before, TEXT) + NAMED, text_width(behind, TEXT) + NAMED
    return other / (one + other)
