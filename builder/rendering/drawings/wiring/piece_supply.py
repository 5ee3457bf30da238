"""Pieces for a phone: the supply from the battery and back, and the turn-on chain."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire, Link
from builder.planning.circuit.supply_links import BODY, THE_STRAP
from builder.planning.circuit.terminal_names import BATTERY, ground_of, supply_of
from builder.planning.words import BLOCK
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.battery_place import body_links, feeding_battery
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.frame import sized
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TITLE, Frame, Scene
from builder.rendering.drawings.wiring.upright import LINE, SIDE, SIZE, WIDTH

PLUS_X, BODY_X = 34.0, 330.0
UNIT = (130.0, 150.0)  # left edge and width of a device
POST_PITCH = 16.0  # between grounds that lead to the battery's post
STEP, NARROW_STEP = 46.0, 36.0  # between branches, of three or more


def name_words(wire: CircuitWire) -> str:
    """A wire with its size; the lead to the main fuse is short and of the trunk's size."""
    return wire.id if wire.id.startswith("lead to") else sized(wire)


class SupplyPiece:
    """Draws battery, fuses, devices one below the other, and the body at the right."""

    def __init__(self, reading: Reading, converter: str) -> None:
        self.reading, self.converter, self.scene = reading, converter, Scene()
        self.index = reading.index
        amplifiers = [u.id for u in reading.units("amplifier")]
        self.fed = [a for a in amplifiers if self._to(supply_of(a))]
        self.at_block = reading.fed_by_block
        self.direct = any(link.finishes.startswith(BATTERY) and link.id != THE_STRAP
                          for link in reading.grounds)  # fmt: skip

    @property
    def names_to(self) -> float:
        """How far names reach to the right: to what leads to the body or to the battery's post."""
        return BODY_X - 12 - (POST_PITCH * (len(self.fed) - 1) if self.direct else 0.0)

    def _to(self, terminal: str) -> Link | None:
        return next((link for link in self.reading.supplies if link.finishes == terminal), None)

    def draw(self) -> tuple[Scene, float]:
        """Return the scene and its height."""
        box = (SIDE, 2.0, WIDTH - 2 * SIDE, 34.0)
        name = feeding_battery(self.reading)
        self.scene.frames.append(Frame("battery", box, (name,), name))
        self.scene.say(name, WIDTH / 2, 23, size=TITLE, anchor="middle", bold=True)
        self.scene.say("+", PLUS_X, 24, size=TITLE, anchor="middle", bold=True)
        self.scene.say("−", BODY_X, 24, size=TITLE, anchor="middle", bold=True)
        y = self._head()
        for at, name in enumerate(self.fed):
            y = self._device(name, at, y)
        self._body(y)
        return self.scene, y + 30

    def _head(self) -> float:
        """Post, lead, main fuse, trunk, block. Returns where devices begin."""
        link = self._to(f"{BLOCK} in") or self._to(supply_of(self.fed[0]))
        assert link is not None
        lead, trunk = self.index.wires_of(link)
        fuse = next(iter(self.index.elements_of(link)))
        at = link.path.index(fuse.id)
        self.scene.mark("stud", (PLUS_X, 36), link.path[0], link.path[1])
        self._down(lead, (PLUS_X, 36), (PLUS_X, 82), (PLUS_X + 14, 64))
        lay_bare(self.scene, (PLUS_X, 82), (PLUS_X, 114), carries="supply")
        put_part(self.scene, "fuse", PLUS_X, 98, fuse.id, fuse.rating)
        self.scene.mark("dot", (PLUS_X, 82), link.path[at - 1])
        self.scene.mark("dot", (PLUS_X, 114), link.path[at + 1])
        self.trunk = trunk
        if self._to(f"{BLOCK} in") is None:
            return 162.0
        self._down(trunk, (PLUS_X, 114), (PLUS_X, 166), (PLUS_X + 14, 142))
        lanes = self._lanes()
        step = STEP if len(lanes) < 3 else NARROW_STEP
        self.block_x = {name: PLUS_X + step * (len(lanes) - 1 - i) for i, name in enumerate(lanes)}
        wide = max(128.0, max(self.block_x.values()) + 30)
        self.scene.frames.append(Frame("driver", (SIDE, 166.0, wide, 28.0), (BLOCK,), BLOCK))
        self.scene.say(BLOCK, SIDE + wide / 2, 184, size=SIZE, anchor="middle", bold=True)
        self.scene.mark("screw", (PLUS_X, 166), link.path[-1], link.path[-2])
        return 276.0

    def _lanes(self) -> list[str]:
        """What hangs on the block, from the uppermost down: the converter below what grounds it."""
        if self.at_block is None:
            return self.fed
        at = self.fed.index(self._grounds_it()) + 1
        return [*self.fed[:at], self.converter, *self.fed[at:]]

    def _grounds_it(self) -> str:
        """The device that the converter is grounded at, or nothing."""
        own = (g for g in self.reading.grounds if g.begins == ground_of(self.converter))
        return next((self.index.unit_of(home.finishes).id for home in own), "")

    def _from_block(self, link: Link, name: str, end: Point) -> CircuitWire:
        """Fuse below the block, then down and to the right; returns the wire."""
        fuse, lane = next(iter(self.index.elements_of(link))), self.block_x[name]
        wire = next(iter(self.index.wires_of(link)))
        lay_bare(self.scene, (lane, 194), (lane, 232), carries="supply")
        put_part(self.scene, "fuse", lane, 212, fuse.id, fuse.rating)
        self.scene.mark("dot", (lane, 194), link.path[1])
        self.scene.mark("dot", (lane, 232), link.path[3])
        lay(self.scene, wire, (lane, 232), (lane, end[1]), end)
        return wire

    def _down(self, wire: CircuitWire, start: Point, end: Point, name: Point) -> None:
        lay(self.scene, wire, start, end)
        lines = wrap(name_words(wire), self.names_to - name[0], SIZE)
        for row, line in enumerate(lines):
            self.scene.say(line, name[0], name[1] + LINE * (row - len(lines) + 1), size=SIZE)

    def _device(self, name: str, at: int, y: float) -> float:
        """A device with what feeds it from the left and its ground to the right."""
        x, wide = UNIT
        high = 62.0
        link = self._to(supply_of(name))
        assert link is not None
        self._feed(link, name, at, y + 22)
        self.scene.frames.append(Frame("unit", (x, y, wide, high), (name,), name))
        self.scene.say(name, x + wide / 2, y + 18, size=TITLE, anchor="middle", bold=True)
        self.scene.say("+12 V", x + 9, y + 36, size=SIZE)
        self.scene.say("GND", x + wide - 9, y + 36, size=SIZE, anchor="end")
        bottom = self._ground(name, at, y)
        if self._feeds(name):
            return self._converter(name, y + high, max(bottom, y + high))
        if self._grounds_it() == name:
            return self._converter_fed_elsewhere(name, y + high, max(bottom, y + high))
        return bottom

    def _feed(self, link: Link, name: str, at: int, y: float) -> None:
        x = UNIT[0]
        self.scene.mark("screw", (x, y), link.finishes, link.path[-2])
        wire = list(self.index.wires_of(link))[-1]
        if self._to(f"{BLOCK} in") is None:
            if at == 0:
                lay(self.scene, wire, (PLUS_X, 114), (PLUS_X, y), (x, y))
                self.scene.say(sized(wire), PLUS_X + 14, 130, size=SIZE)
            else:
                lay_bare(self.scene, (PLUS_X, 200), (PLUS_X, y), (x, y), carries="supply")
            return
        self._from_block(link, name, (x, y))
        self.scene.say(sized(wire), self.names_to, y - 48, size=SIZE, anchor="end")

    def _ground(self, name: str, row: int, y: float) -> float:
        """The ground of a device, its name below it; returns the bottom."""
        x = UNIT[0] + UNIT[1]
        link = next((g for g in self.reading.grounds if g.begins == ground_of(name)), None)
        if link is None:
            return y + 80
        wire, at = next(iter(self.index.wires_of(link))), y + 22
        self.scene.mark("screw", (x, at), link.begins, link.path[1])
        behind = len(self.fed) - 1 - row if self.direct else 0  # nearer than those below it
        end = (BODY_X - POST_PITCH * behind, at)
        points = ((x, at), end) if not self.direct else ((x, at), end, (end[0], 36.0))
        lay(self.scene, wire, *points)
        self.scene.mark("stud", points[-1], link.finishes, link.path[-2])
        self.scene.say(sized(wire), self.names_to, y - 9, size=SIZE, anchor="end")
        return y + 112

    def _feeds(self, name: str) -> bool:
        return any(link.begins == supply_of(name) for link in self.reading.supplies)

    def _converter(self, name: str, top: float, y: float) -> float:
        """The converter below the device that feeds it."""
        link = next(each for each in self.reading.supplies if each.begins == supply_of(name))
        home = next(g for g in self.reading.grounds if g.finishes == ground_of(name))
        (x, wide), low = UNIT, y + 66
        left, right = x + 26, x + wide - 26
        fuse, wire = next(iter(self.index.elements_of(link))), next(iter(self.index.wires_of(link)))
        lay_bare(self.scene, (left, top), (left, top + 48), carries="supply")
        put_part(self.scene, "fuse", left, top + 26, fuse.id, fuse.rating)
        self.scene.mark("dot", (left, top + 48), link.path[3])
        lay(self.scene, wire, (left, top + 48), (left, low))
        self._lines(wire.id, left - 10, top + 64, end=True)
        back = next(iter(self.index.wires_of(home)))
        lay(self.scene, back, (right, low), (right, top))
        self._lines(back.id, right + 10, top + 84, end=False)
        for point, ids in (((left, top), (link.begins, link.path[1])),
                           ((right, top), (home.finishes, home.path[-2])),
                           ((left, low), (link.finishes, link.path[-2])),
                           ((right, low), (home.begins, home.path[1]))):  # fmt: skip
            self.scene.mark("screw", point, *ids)
        unit = self.converter
        self.scene.frames.append(Frame("unit", (x - 10, low, wide + 20, 50), (unit,), unit))
        self.scene.say("+12 V", left, low + 18, size=SIZE, anchor="middle")
        self.scene.say("GND", right, low + 18, size=SIZE, anchor="middle")
        self.scene.say(unit, x + wide / 2, low + 38, size=TITLE, anchor="middle", bold=True)
        return low + 84

    def _converter_fed_elsewhere(self, name: str, top: float, y: float) -> float:
        """The converter below the device that grounds it; fed by the block, or by the car."""
        home = next(g for g in self.reading.grounds if g.finishes == ground_of(name)
                    and g.begins == ground_of(self.converter))  # fmt: skip
        (x, wide), low = UNIT, y + 66
        right = x + wide - 26
        if self.at_block is not None:
            self._fed_by_block(self.at_block, (x - 10, low + 24), right - x - 8)
        back = next(iter(self.index.wires_of(home)))
        lay(self.scene, back, (right, low), (right, top))
        self._lines(back.id, right + 10, top + 84, end=False)
        self.scene.mark("screw", (right, top), home.finishes, home.path[-2])
        self.scene.mark("screw", (right, low), home.begins, home.path[1])
        unit = self.converter
        self.scene.frames.append(Frame("unit", (x - 10, low, wide + 20, 50), (unit,), unit))
        self.scene.say("GND", right, low + 18, size=SIZE, anchor="middle")
        self.scene.say(unit, x + wide / 2, low + 42, size=TITLE, anchor="middle", bold=True)
        return low + 84

    def _fed_by_block(self, link: Link, at: Point, room: float) -> None:
        """The converter's own lane from the block to its left edge, named above it."""
        wire, (x, y) = self._from_block(link, self.converter, at), at
        lines = wrap(wire.id, room, SIZE)
        for row, line in enumerate(lines):
            self.scene.say(line, x + 6, y - 32 - LINE * (len(lines) - 1 - row), size=SIZE)
        self.scene.mark("screw", at, link.finishes, link.path[-2])
        self.scene.say("+12 V", x + 10, y + 4, size=SIZE)

    def _lines(self, words: str, x: float, y: float, *, end: bool) -> None:
        for row, line in enumerate(wrap(words, 92, SIZE)):
            self.scene.say(line, x, y + LINE * row, size=SIZE, anchor="end" if end else "start")

    def _body(self, y: float) -> None:
        if not any(unit.id == BODY for unit in self.reading.circuit.units):
            return
        ground, strap = body_links(self.reading)
        self.scene.frames.append(
            Frame("body", (BODY_X - 6, 84.0, 12.0, y - 84), (BODY,), "the body")
        )
        wires = self.index.wires
        studs = [m.at for m in self.scene.marks if ground.path[0] in m.ids]
        far = max((at[1] for at in studs), default=y - 20) + 10
        lay(self.scene, wires[ground.path[2]], (BODY_X, far), (BODY_X, 104.0))
        lay(self.scene, wires[strap.path[2]], (BODY_X, 92.0), (BODY_X, 36.0))
        self.scene.mark("stud", (BODY_X, 92.0), strap.path[0], strap.path[1])
        self.scene.mark("dot", (BODY_X, 104.0), ground.path[3])
        self.scene.mark("dot", (BODY_X, far), ground.path[1])
        self.scene.mark("stud", (BODY_X, 36.0), strap.path[-1], strap.path[-2])
        self.scene.say(
            strap.id, BODY_X - 16, 64 if strap.id == THE_STRAP else 80, size=SIZE, anchor="end"
        )
        self.scene.say("the body", BODY_X - 16, y - 2, size=SIZE, anchor="end")
