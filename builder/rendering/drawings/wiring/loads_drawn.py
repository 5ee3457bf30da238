"""What else the turn-on lead switches, drawn: its box, the diode across its coil, the way back.

Beside one amplifier it hangs below the converter, in the channel between the two: the amplifier's
ground runs where it would stand else. Between two amplifiers it stands in their column.
"""

from __future__ import annotations

from builder.planning.circuit.model import Link
from builder.planning.circuit.terminal_names import across_coil
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.channel import name_in_channel
from builder.rendering.drawings.wiring.converter_box import Converter
from builder.rendering.drawings.wiring.frame import Columns
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import CONTACT_PITCH, Device, RightSide
from builder.rendering.drawings.wiring.scene import (
    CLAMP_PITCH,
    GND_FROM,
    Scene,
)

ABOVE_HUNG, FOOT = 46.0, 14.0
LINE_BELOW, DIODE_BELOW = 48.0, 24.0
DIODE_X = 66.0


def place_hung(right: RightSide, top: float) -> None:
    """Give what hangs below the converter its heights, from the converter's foot on."""
    for device in right.hung:
        device.hangs, device.top = True, top + ABOVE_HUNG
        device.turn_on_y = device.top + LINE_BELOW
        has_ground = any(each.carries == "ground" for each in device.unit.terminals)
        device.gnd_y = device.turn_on_y if has_ground else 0.0
        contacts = CONTACT_PITCH * (len(device.switched) - 1)
        device.bottom = device.turn_on_y + max(DIODE_BELOW, contacts) + FOOT
        top = device.bottom


def hung_edges(device: Device, cols: Columns) -> tuple[float, float]:
    """Return the left and right edge of a device."""
    return cols.hung if device.hangs else cols.amplifier


class LoadsDrawn:
    """Draws the diode across each coil, and the wire that leads its current back."""

    def __init__(
        self, scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns
    ) -> None:
        self.scene, self.reading, self.right = scene, reading, right
        self.box, self.cols = box, cols
        links = {link.begins: link for link in reading.grounds}
        self.loads = [(device, links[each.id]) for device in right.loads
                      for each in device.unit.terminals if each.id in links]  # fmt: skip

    def draw(self) -> None:
        """Draw them all, from top to bottom."""
        for at, (device, link) in enumerate(self.loads):
            self._diode(device)
            start = (hung_edges(device, self.cols)[0], device.gnd_y)
            self.scene.mark("screw", start, link.begins, link.path[1])
            name_y = device.gnd_y - (8 if device.hangs else 7)
            self.scene.say("GND", start[0] + 9, name_y)
            self._back(link, start, at, hangs=device.hangs)

    def _diode(self, device: Device) -> None:
        part = self.reading.index.elements.get(across_coil(device.unit.id))
        if part is None:
            return
        left, right = hung_edges(device, self.cols)
        y = device.turn_on_y
        if device.hangs:
            low = y + DIODE_BELOW
            lay_bare(self.scene, (left, y), (left + 12, y), (left + 12, low), (right - 12, low),
                     (right - 12, y), (right, y))  # fmt: skip
            put_part(self.scene, part.kind, (left + right) / 2, low, part.id, "")
            self.scene.say(f"{part.kind} {part.rating}", (left + right) / 2, low - 10,
                           anchor="middle")  # fmt: skip
            return
        x = left + DIODE_X
        lay_bare(self.scene, (left, device.gnd_y), (x, device.gnd_y), (x, y), (left, y))
        put_part(self.scene, part.kind, x, (device.gnd_y + y) / 2, part.id, "", upright=True)
        self.scene.say(f"{part.kind} {part.rating}", x + 12, (device.gnd_y + y) / 2 + 4)

    def _back(self, link: Link, start: Point, at: int, *, hangs: bool) -> None:
        wire = next(iter(self.reading.index.wires_of(link)))
        device = self.right.of(self.reading.index.unit_of(link.finishes).id)
        points = self._hung(device, start, at) if hangs else self._between(device, start, at)
        lay(self.scene, wire, start, *points)
        self.scene.mark("screw", points[-1], link.finishes, link.path[-2])
        if hangs and device is None:
            x = self.cols.converter[1] - GND_FROM - CLAMP_PITCH * len(self.loads) - 10
            self.scene.say(wire.id, x, start[1] + 4, anchor="end")

    def _hung(self, device: Device | None, start: Point, at: int) -> tuple[Point, ...]:
        """Up to the foot of the converter beside its own ground, or round to the amplifier's."""
        if device is None:
            x = self.cols.converter[1] - GND_FROM - CLAMP_PITCH * at
            return (x, start[1]), (x, self.box.bottom)
        behind = len(self.loads) - 1 - at
        x, y = start[0] - 10 - 10 * behind, self._lowest(device) + 16 + 12 * behind
        to = self.cols.amplifier[0] + 56 - 12 * at
        return (x, start[1]), (x, y), (to, y), (to, device.bottom)

    def _lowest(self, device: Device) -> float:
        return max(device.bottom, *(each.bottom for each in self.right.hung))

    def _named(self) -> None:
        """Below the wire that ends at the right edge of the converter."""
        assert self.box.grounded_right is not None
        wire = next(iter(self.reading.index.wires_of(self.loads[0][1])))
        y = self.box.grounded_right + CONTACT_PITCH
        name_in_channel(self.scene, self.reading, len(self.right.devices), self.cols, (wire, y))

    def _between(self, device: Device | None, start: Point, at: int) -> tuple[Point, ...]:
        """Left of the turn-on wires to the converter, or to the foot of an amplifier."""
        aside = start[0] - 4 - 12 * (len(self.right.devices) + at)
        if device is not None:
            to, y = self.cols.amplifier[0] + 56 - 12 * at, device.bottom + 10 + 10 * at
            return (aside, start[1]), (aside, y), (to, y), (to, device.bottom)
        if self.box.grounded_right is not None:
            if len(self.loads) == 1:
                self._named()
            y = self.box.grounded_right + CONTACT_PITCH * (at + 1)
            return (aside, start[1]), (aside, y), (self.cols.converter[1], y)
        x, y = self.cols.converter[1] - GND_FROM - CLAMP_PITCH * at, self.box.bottom + 14 + 12 * at
        return (aside, start[1]), (aside, y), (x, y), (x, self.box.bottom)
