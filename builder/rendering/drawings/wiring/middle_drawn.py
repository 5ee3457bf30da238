"""The middle of the picture drawn: the converter, the turn-on chain."""

from __future__ import annotations

from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.blocks import LeftSide
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.converter_box import Converter, open_name
from builder.rendering.drawings.wiring.frame import Columns
from builder.rendering.drawings.wiring.loads_drawn import hung_edges
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.right_side import CONTACT_PITCH, Device, RightSide
from builder.rendering.drawings.wiring.scene import (
    HOLD_UP_WIDTH,
    TEXT,
    TITLE,
    Frame,
    Scene,
)


def draw_converter(
    scene: Scene, reading: Reading, box: Converter, left: LeftSide, cols: Columns
) -> None:
    """Draw the converter with the names of its terminals."""
    x, to = cols.converter
    frame = (x, box.top, to - x, box.bottom - box.top)
    scene.frames.append(Frame("unit", frame, (box.unit,), box.unit))
    scene.say(box.unit, (x + to) / 2, box.top + 38, size=TITLE, anchor="middle", bold=True)
    own = {t.id: t for t in reading.index.units[box.unit].terminals}
    for lane in left.lanes:
        if lane.strand and lane.strand.way[-1] in own:
            scene.say(own[lane.strand.way[-1]].name, x + 9, lane.y + 4)
    for terminal, y in box.outs.items():
        scene.say(own[terminal].name, to - 9, y + 4, anchor="end")
    for end, y in box.unused:
        scene.mark("cap", (x - 8, y), *([end] if end in own else []), open_end=end)
        lay_bare(scene, (x - 8, y), (x, y))
        scene.say(open_name(reading, end), x + 9, y + 4)


class ChainDrawn:
    """Draws the turn-on chain from the converter on, and what comes straight from the car."""

    def __init__(
        self, scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns
    ) -> None:
        self.scene, self.reading, self.right = scene, reading, right
        self.box, self.cols = box, cols
        self.named = 0  # lines beside upright wires

    def draw(self) -> None:
        """Draw every hop that begins at a device or at the converter."""
        for device in self.right.switched:
            self._terminal(device)
        for strand in self.reading.controls:
            unit = self.reading.index.unit_of(strand.way[0]).id
            target = self.right.of(self.reading.index.unit_of(strand.way[-1]).id)
            if target is None or self.reading.of_the_car(strand.way[0]):
                continue
            if unit == self.box.unit:
                self._from_converter(strand, target)
            else:
                self._on(strand, self.right.of(unit), target)

    def _terminal(self, device: Device) -> None:
        terminal = next((t for t in device.unit.terminals if t.carries == "control"), None)
        if terminal is None or not device.switched:
            return
        for at, strand in enumerate(device.switched):
            joint = strand.way[-2] if strand.way[-1] == terminal.id else strand.way[1]
            self.scene.mark("screw", (self._x(device), device.contact_y(at)), terminal.id, joint)
        middle = device.turn_on_y + CONTACT_PITCH * (len(device.switched) - 1) / 2
        if device.hangs:
            self.scene.say(terminal.name, self._x(device) - 9, device.turn_on_y - 8, anchor="end")
        elif device.gnd_y:
            self.scene.say(terminal.name, self._x(device) + 9, device.turn_on_y - 7)
        else:
            self.scene.say(terminal.name, self._x(device) + 9, middle + 4)

    def _x(self, device: Device) -> float:
        """The edge at which a device is switched on."""
        return hung_edges(device, self.cols)[1 if device.hangs else 0]

    def _from_converter(self, strand: Strand, device: Device) -> None:
        wire = self.reading.wires_in(strand)[0]
        start, y = self.cols.converter[1], device.strand_y(strand)
        self.scene.mark("screw", (start, y), strand.way[0], strand.way[1])
        end = self.cols.amplifier[0] - (HOLD_UP_WIDTH if device.held_up else 0.0)
        lay(self.scene, wire, (start, y), (end, y), name=wire.purpose, at=((start + end) / 2, y))

    def _on(self, strand: Strand, first: Device | None, target: Device) -> None:
        """From one device to the next: beside their left edges."""
        assert first is not None
        wire, x = self.reading.wires_in(strand)[0], self.cols.amplifier[0]
        y1, y2 = first.strand_y(strand), target.strand_y(strand)
        order = self.right.switched
        aside = x - 4 - 12 * abs(order.index(first) - order.index(target))
        lay(self.scene, wire, (self._x(first), y1), (aside, y1), (aside, y2), (self._x(target), y2))
        if target.hangs:
            self._above(wire.purpose, aside - 8, target.top)
            return
        beside = len(order) + len(self.right.loads)
        self._beside(wire.purpose, x - 12 * beside, max(y1, y2) - 14)

    def _above(self, purpose: str, x: float, top: float) -> None:
        """Name an upright wire above the box that it leads to."""
        lines = wrap(purpose, x - self.cols.converter[1] - 6, TEXT)
        for at, line in enumerate(lines):
            self.scene.say(line, x, top - 8 - 13 * (len(lines) - 1 - at), anchor="end")

    def _beside(self, purpose: str, x: float, y: float) -> None:
        """Name an upright wire to its left, in lines that the channel has room for."""
        lines = wrap(purpose, x - self.cols.converter[1] - 6, TEXT)
        y -= 14 * self.named + 13 * (len(lines) - 1)
        self.named += len(lines)
        for at, line in enumerate(lines):
            self.scene.say(line, x, y + 13 * at, anchor="end")


def draw_hold_up(
    scene: Scene, reading: Reading, strand: Strand, at: Point, ground: tuple[Point, ...]
) -> None:
    """Draw diode, resistor, diode and capacitor before the terminal at a place.

    `ground` leads from below the capacitor to the terminal that it is grounded at.
    """
    index, (x, y) = reading.index, at
    before = reading.elements_in(strand)[-1]
    charge, across, store = (
        next(p for p in reading.idle_parts if p.purpose.startswith(word))
        for word in ("charges", "empties", "holds")
    )
    node, first, mid = x - 34, strand.way[strand.way.index(before.id) - 1], y + 58
    lay_bare(scene, (x - HOLD_UP_WIDTH, y), (x, y))
    put_part(scene, "diode", x - 58, y, before.id, "")
    scene.say(f"{before.kind} {before.rating}", node - 7, y + 17, anchor="end")
    scene.mark("dot", (x - HOLD_UP_WIDTH, y), first)
    scene.mark("dot", (node, y), strand.way[-2])
    lay_bare(scene, (node, y), (node, y + 24))
    for dx, part in ((-14.0, charge), (14.0, across)):
        lay_bare(scene, (node, y + 24), (node + dx, y + 24), (node + dx, mid), (node, mid))
        put_part(
            scene, part.kind, node + dx, y + 41, part.id, "", upright=True, turned=part is across
        )
    scene.say(charge.rating, node - 22, y + 45, anchor="end")
    scene.mark("dot", (node, mid), _joint(reading, store.ends[0]))
    lay_bare(scene, (node, mid), (node, mid + 24), *ground)
    put_part(scene, "capacitor", node, mid + 16, store.id, "", upright=True)
    scene.say(store.rating, node - 12, mid + 20, anchor="end")
    scene.mark("dot", ground[-1] if ground else (node, mid + 24), _joint(reading, store.ends[1]))
    assert index is not None


def _joint(reading: Reading, end: str) -> str:
    return reading.index.joints_of[end][0].id
