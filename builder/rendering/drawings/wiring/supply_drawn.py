"""The supply drawn above the rest: battery, fuses, distribution block, branches."""

from __future__ import annotations

from builder.planning.circuit.model import Link
from builder.planning.circuit.terminal_names import BATTERY, supply_of
from builder.planning.words import BLOCK
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.battery_place import feeding_battery
from builder.rendering.drawings.wiring.canvas_marks import (
    fitting,
    lay,
    lay_bare,
    part_width,
    put_part,
)
from builder.rendering.drawings.wiring.channel import name_in_channel
from builder.rendering.drawings.wiring.converter_box import Converter
from builder.rendering.drawings.wiring.frame import Columns, sized
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import Device, RightSide
from builder.rendering.drawings.wiring.scene import TEXT, TITLE, Frame, Scene

ARC_BELOW = 40.0  # from the trunk to the converter's supply
POST_PITCH = 16.0  # between wires clamped in one supply terminal
RIGHT_ROOM = 14.0
BRANCH_PITCH = 20.0


def fed_devices(reading: Reading, right: RightSide) -> list[Device]:
    """The amplifiers that have a supply, from the uppermost to the lowest."""
    ends = {link.finishes for link in reading.supplies}
    return [device for device in right.amplifiers if supply_of(device.unit.id) in ends]


class SupplyDrawn:
    """Draws battery, trunk, block, branches and the converter's supply."""

    def __init__(
        self, scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns
    ) -> None:
        self.scene, self.reading, self.right = scene, reading, right
        self.box, self.cols, self.trunk_y = box, cols, cols.batteries.trunk_y
        self.fed = fed_devices(reading, right)

    def _link_to(self, terminal: str) -> Link | None:
        return next((link for link in self.reading.supplies if link.finishes == terminal), None)

    def draw(self) -> None:
        """Draw it all, or nothing where no supply was worked out."""
        if not self.reading.supplies:
            return
        self._battery()
        if any(unit.id == BLOCK for unit in self.reading.circuit.units):
            self._block()
        else:
            self._trunk_to_amplifiers()
        self._converter_supply()

    # -- above --------------------------------------------------------------------------------

    def _battery(self) -> None:
        x, y, w, h = self.cols.batteries.feeding
        name = feeding_battery(self.reading)
        self.scene.frames.append(Frame("battery", (x, y, w, h), (name,), name))
        size = TITLE if name == BATTERY else TEXT
        aside = 0 if name == BATTERY else 6  # its ground is clamped at the left of its foot
        self.scene.say(name, x + w / 2 + aside, y + h - 7, size=size, anchor="middle", bold=True)
        self.scene.say("+", x + w - 10, self.trunk_y + 4, anchor="end", bold=True)
        self.scene.say("−", x + 9, y + h - 22, anchor="middle", bold=True)

    def _fused_wire(
        self, link: Link, start: Point, *points: Point, fuse_x: float, first: bool
    ) -> None:
        """Draw a link from its start: lead, fuse, wire; the fuse lies on the first stretch."""
        wires = list(self.reading.index.wires_of(link))
        fuse = next(iter(self.reading.index.elements_of(link)))
        half, y = part_width(fuse.rating) / 2 + 5, start[1]
        at = link.path.index(fuse.id)
        near, far = (fuse_x - half, y), (fuse_x + half, y)
        if first:
            lay(self.scene, wires[0], start, near, name=wires[0].id,
                at=((start[0] + near[0]) / 2, y))  # fmt: skip
        else:
            lay_bare(self.scene, start, near, carries="supply")
        put_part(self.scene, "fuse", fuse_x, y, fuse.id, fuse.rating)
        lay_bare(self.scene, near, far, carries="supply")
        self.scene.mark("dot", near, link.path[at - 1])
        self.scene.mark("dot", far, link.path[at + 1])
        room = points[0][0]
        name = fitting(room - far[0], sized(wires[-1]), wires[-1].id)
        lay(self.scene, wires[-1], far, *points, name=name, at=((far[0] + room) / 2, y))

    def _trunk_points(self, end: Point) -> tuple[Point, ...]:
        return ((end[0], self.trunk_y), end) if end[1] != self.trunk_y else (end,)

    def _trunk(self, link: Link, end: Point) -> None:
        x, y = self._post(), self.trunk_y
        self.scene.mark("stud", (x, y), link.path[0], link.path[1])
        lead = next(iter(self.reading.index.wires_of(link)))
        fuse_x = x + text_width(lead.id, TEXT) + 80
        self._fused_wire(link, (x, y), *self._trunk_points(end), fuse_x=fuse_x, first=True)

    def _post(self) -> float:
        """The right edge of the battery that feeds."""
        x, _, wide, _ = self.cols.batteries.feeding
        return x + wide

    def _plus(self, device: Device, at: int = 0) -> Point:
        """Where a supply wire is clamped at the top of an amplifier, from the right."""
        return self.cols.amplifier[1] - 34 - POST_PITCH * at, device.top

    def _trunk_to_amplifiers(self) -> None:
        links = [self._link_to(supply_of(device.unit.id)) for device in self.fed]
        for at, (device, link) in enumerate(zip(self.fed, links, strict=True)):
            if link is None:
                continue
            end = self._plus(device)
            if at == 0:
                self._trunk(link, end)
            else:
                lay_bare(self.scene, *self._round(at, end), carries="supply")
            self._plus_terminal(device, end, link.path[-2])

    def _plus_terminal(self, device: Device, end: Point, joint: str) -> None:
        self.scene.mark("screw", end, supply_of(device.unit.id), joint)
        self.scene.say("+12 V", self.cols.amplifier[1] - 8, device.top + 18, anchor="end")

    def _round(self, at: int, end: Point) -> tuple[Point, ...]:
        """From the top past the right of what stands above, to the top of a lower amplifier."""
        x, start = self.cols.amplifier[1] + RIGHT_ROOM + 12 * (at - 1), self._plus(self.fed[0])
        return (
            (start[0], self.trunk_y),
            (x, self.trunk_y),
            (x, end[1] - 16),
            (end[0], end[1] - 16),
            end,
        )

    def _block(self) -> None:
        feed = self._link_to(f"{BLOCK} in")
        assert feed is not None
        right, y = max(self.cols.converter[0] + 40, self._trunk_end(feed)), self.trunk_y
        wide, high = 128.0, 20.0 + BRANCH_PITCH * (len(self.fed) - 1)
        self.scene.frames.append(
            Frame("driver", (right, y - high / 2, wide, high), (BLOCK,), BLOCK)
        )
        self.scene.say(BLOCK, right + wide / 2, y + 4, anchor="middle", bold=True)
        self._trunk(feed, (right, y))
        self.scene.mark("screw", (right, y), feed.path[-1], feed.path[-2])
        for at, device in enumerate(self.fed):
            self._branch(device, at, (right + wide, y))
        self._converter_at_block((right + wide - 14.0, y + high / 2))

    def _trunk_end(self, feed: Link) -> float:
        """How far the trunk reaches with its names and its fuse."""
        lead, rest = self.reading.index.wires_of(feed)
        names = text_width(lead.id, TEXT) + text_width(rest.id, TEXT)
        return self._post() + names + 150

    def _branch(self, device: Device, at: int, block: Point) -> None:
        """The first branch leaves lowest and comes down first: none crosses another."""
        link = self._link_to(supply_of(device.unit.id))
        assert link is not None
        end, count = self._plus(device), len(self.fed)
        y = block[1] + BRANCH_PITCH * (count - 1) / 2 - BRANCH_PITCH * at
        if at == 0:
            points: tuple[Point, ...] = ((end[0], y), end)
        else:
            x = self.cols.amplifier[1] + RIGHT_ROOM + 12 * (at - 1)
            points = ((x, y), (x, end[1] - 16), (end[0], end[1] - 16), end)
        fuse = next(iter(self.reading.index.elements_of(link)))
        half = part_width(fuse.rating) / 2
        self.scene.mark("dot", (block[0], y), link.path[1])
        fuse_x = block[0] + 8 + half
        lay_bare(self.scene, (block[0], y), (fuse_x + half, y), carries="supply")
        put_part(self.scene, "fuse", fuse_x, y, fuse.id, fuse.rating)
        wire = next(iter(self.reading.index.wires_of(link)))
        start = fuse_x + half
        name = fitting(points[0][0] - start, sized(wire), wire.id)
        lay(self.scene, wire, (start, y), *points, name=name, at=((start + points[0][0]) / 2, y))
        self.scene.mark("dot", (fuse_x + half, y), link.path[3])
        self._plus_terminal(device, end, link.path[-2])

    def _converter_supply(self) -> None:
        link = next((each for each in self.reading.supplies
                     if self.reading.kind_of(each.finishes) == "converter"), None)  # fmt: skip
        if link is None:
            return
        device = self.right.of(self.reading.index.unit_of(link.begins).id)
        if device is None:
            return  # fed by the car, a lane at the left; by the block, drawn with it
        start, to = self._plus(device, 1), self.cols.converter[1] - 34
        self.scene.mark("screw", start, link.begins, link.path[1])
        if self.box.supplied_right is not None:
            self._supply_from_right(link, start, self.box.supplied_right)
            return
        self._from_above(link, start, to)

    def _converter_at_block(self, start: Point) -> None:
        """From the foot of the block to the converter, which stands below it or further left."""
        link = self.reading.fed_by_block
        if link is None:
            return
        self.scene.mark("screw", start, link.path[1])
        fuse = next(iter(self.reading.index.elements_of(link)))
        room = part_width(fuse.rating) + 44.0
        to = min(self.cols.converter[1] - 34, start[0] - room)
        self._from_above(link, start, to)

    def _from_above(self, link: Link, start: Point, to: float) -> None:
        """To the top of the converter, fused at the source."""
        end = (to, self.box.top)
        self._arc(link, start, (to, self.trunk_y + ARC_BELOW), end)
        self.scene.mark("screw", end, link.finishes, link.path[-2])
        self.scene.say("+12 V", to + 26, self.box.top + 18, anchor="end")

    def _supply_from_right(self, link: Link, start: Point, y: float) -> None:
        """Below the amplifiers above: from the clamp straight to the converter's right edge."""
        end = (self.cols.converter[1], y)
        self._arc(link, start, end, end)
        self.scene.mark("screw", end, link.finishes, link.path[-2])
        self.scene.say("+12 V", end[0] - 9, y + 4, anchor="end")
        wire = next(iter(self.reading.index.wires_of(link)))
        name_in_channel(self.scene, self.reading, len(self.right.devices), self.cols, (wire, y))

    def _arc(self, link: Link, start: Point, turn: Point, end: Point) -> None:
        """Fuse at the source, then leftwards to the converter."""
        fuse = next(iter(self.reading.index.elements_of(link)))
        wire = next(iter(self.reading.index.wires_of(link)))
        half = part_width(fuse.rating) / 2
        fuse_x, y = start[0] - 14 - half, turn[1]
        far = (fuse_x - half - 8, y)
        lay_bare(self.scene, start, (start[0], y), far, carries="supply")
        put_part(self.scene, "fuse", fuse_x, y, fuse.id, fuse.rating)
        self.scene.mark("dot", far, link.path[3])
        name = fitting(far[0] - turn[0], sized(wire), wire.id) if turn != end else ""
        lay(self.scene, wire, far, turn, end, name=name, at=((far[0] + turn[0]) / 2, turn[1]))
