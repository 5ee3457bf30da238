"""The way back drawn below the rest: ground leads, the car's body, the strap."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire, Link
from builder.planning.circuit.supply_links import BODY, GROUND_POINT, THE_BODY, THE_STRAP
from builder.planning.circuit.terminal_names import BATTERY, SECOND
from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.wiring.battery_place import BESIDE
from builder.rendering.drawings.wiring.canvas_marks import fitting, lay
from builder.rendering.drawings.wiring.channel import name_in_channel
from builder.rendering.drawings.wiring.converter_box import Converter
from builder.rendering.drawings.wiring.frame import Columns, sized
from builder.rendering.drawings.wiring.link_drawn import joiner_ground
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import Device, RightSide
from builder.rendering.drawings.wiring.scene import CLAMP_PITCH, GND_FROM, Frame, Scene
from builder.rendering.drawings.wiring.supply_drawn import POST_PITCH, fed_devices

TOPMOST = 5.0  # what runs above everything


class GroundDrawn:
    """Draws grounds, body and strap; `rail` is the height of the body."""

    def __init__(
        self, scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns,
        floor: float,
    ) -> None:  # fmt: skip
        self.scene, self.reading, self.right = scene, reading, right
        self.box, self.cols, self.place = box, cols, cols.batteries
        self.second = SECOND in reading.index.units
        self.rail = floor + (70 if self.second else 54)
        self.lane = floor + 20
        self.fed = fed_devices(reading, right)

    def draw(self) -> None:
        """Draw it all, or nothing where no supply was worked out."""
        if self.fed:
            self._grounds()
            self._body()

    def _gnd(self, device: Device, at: int) -> Point:
        """Where a ground wire is clamped at the bottom of an amplifier, from the left."""
        return self.cols.amplifier[0] + 40 + POST_PITCH * at, device.bottom

    def _grounds(self) -> None:
        posts = self._stud_points()
        for link in self.reading.grounds:
            unit = self.reading.index.unit_of(link.begins)
            if unit.kind not in ("converter", "amplifier", "battery_joiner") and unit.id != SECOND:
                continue  # the body's own are drawn with it; a device on a plug may have no wire
            wire = next(iter(self.reading.index.wires_of(link)))
            if unit.kind == "converter":
                self._converter_ground(link, wire)
            elif unit.id == SECOND:
                self._second_ground(link, wire, posts)
            elif unit.kind == "battery_joiner":
                self._joiner_ground(link, wire, posts)
            else:
                device = self.right.of(unit.id)
                assert device is not None
                self._ground_lead(link, wire, device, posts)

    def _stud_points(self) -> list[Point]:
        """Where ground leads meet the body, one beside the other."""
        many = len(self.fed) > 1
        right = self.cols.width - 22 - self.place.grounded_right
        x = right if many else self._gnd(self.fed[0], 2)[0]
        return [(x - POST_PITCH * at, self.rail) for at in range(len(self.fed))]

    def _ground_lead(
        self, link: Link, wire: CircuitWire, device: Device, posts: list[Point]
    ) -> None:
        start = self._gnd(device, 2)
        self.scene.mark("screw", start, link.begins, link.path[1])
        self.scene.say("GND", start[0] - POST_PITCH, device.bottom - 9, anchor="middle")
        at, last = self.fed.index(device), device is self.right.amplifiers[-1]
        if link.finishes.startswith(BATTERY):
            self._to_battery(link, wire, start, at)
            return
        post = posts[at]
        y = (
            (start[1] + post[1]) / 2
            if len(posts) == 1
            else start[1] + 16
            if not last
            else self.lane + 8
        )
        points = (
            (start, post) if start[0] == post[0] else (start, (start[0], y), (post[0], y), post)
        )
        if start[0] == post[0]:
            lay(self.scene, wire, *points)
            self.scene.say(sized(wire), start[0] + 10, self.lane + 12)
        else:
            lay(self.scene, wire, *points, name=sized(wire), at=((start[0] + post[0]) / 2, y))
        self.scene.mark("stud", post, link.finishes, link.path[-2])

    def _to_battery(self, link: Link, wire: CircuitWire, start: Point, at: int) -> None:
        x = self.place.strap_x + BESIDE * at
        y = self.lane + 14 + 14 * (len(self.fed) - 1 - at)
        end = (x, self._foot(self.place.own))
        down: tuple[Point, ...] = (start, (start[0], y))
        if self.fed[at] is not self.right.amplifiers[-1]:  # past the amplifiers below it
            aside = self.cols.width - 22 - POST_PITCH * at
            down = (start, (start[0], start[1] + 16), (aside, start[1] + 16), (aside, y))
        lay(self.scene, wire, *down, (x, y), end, name=sized(wire),
            at=(self.cols.joint + 260 * at, y))  # fmt: skip
        self.scene.mark("stud", end, link.finishes, link.path[-2])

    def _foot(self, box: Box) -> float:
        return box[1] + box[3]

    def _second_ground(self, link: Link, wire: CircuitWire, posts: list[Point]) -> None:
        """Along the body to the one ground point, or up to the post of the car's battery."""
        x, y = self.place.second_x, self._foot(self.place.feeding)
        if link.finishes.startswith(BATTERY):
            aside = self.place.strap_x + BESIDE * len(self.fed)
            end = (aside, self._foot(self.place.own))
            lay(self.scene, wire, (x, y), (x, y + 14), (aside, y + 14), end)
            self.scene.say(sized(wire), x + 10, y + 19)
        else:
            low, end = self.rail - 14, (min(post[0] for post in posts) - POST_PITCH, self.rail)
            points: tuple[Point, ...] = ((x, y), (x, low), (end[0], low), end)
            lay(self.scene, wire, *points, name=sized(wire), at=((x + end[0]) / 2, low))
        self.scene.mark("stud", (x, y), link.begins, link.path[1])
        self.scene.mark("stud", end, link.finishes, link.path[-2])

    def _joiner_ground(self, link: Link, wire: CircuitWire, posts: list[Point]) -> None:
        """Round everything: right and down to the ground point, or above to the car's battery."""
        start = joiner_ground(self.reading, self.cols)
        self.scene.mark("screw", start, link.begins, link.path[1])
        if link.finishes.startswith(BATTERY):
            x, top, wide, _ = self.place.own
            to, out = x + wide - 30, start[0] + 16
            points: tuple[Point, ...] = (
                start, (out, start[1]), (out, TOPMOST), (to, TOPMOST), (to, top)
            )  # fmt: skip
            lay(self.scene, wire, *points, name=sized(wire), at=(start[0] / 2, TOPMOST))
        else:
            right, end = self.cols.width - 14, (max(p[0] for p in posts) + POST_PITCH, self.rail)
            low = self.rail - 14
            points = (start, (right, start[1]), (right, low), (end[0], low), end)
            name = fitting(right - start[0] - 60, sized(wire), wire.id)
            lay(self.scene, wire, *points, name=name, at=((start[0] + right) / 2, start[1]))
        self.scene.mark("stud", points[-1], link.finishes, link.path[-2])

    def _converter_ground(self, link: Link, wire: CircuitWire) -> None:
        device = self.right.of(self.reading.index.unit_of(link.finishes).id)
        if device is None:
            return  # at a plug of the car: a lane at the left
        end = self._gnd(device, 1)
        if self.box.grounded_right is not None:
            start: Point = (self.cols.converter[1], self.box.grounded_right)
            points: tuple[Point, ...] = (start, (end[0], start[1]), end)
            lay(self.scene, wire, *points)
            said = (wire, start[1])
            above = bool(self.right.loads)  # their wires end below it, and have their names there
            name_in_channel(self.scene, self.reading, len(self.right.devices), self.cols, said,
                            above=above)  # fmt: skip
            self.scene.say("GND", start[0] - 9, start[1] + 4, anchor="end")
        else:
            beside = CLAMP_PITCH * len(self.right.loads)
            start = (self.cols.converter[1] - GND_FROM - beside, self.box.bottom)
            low = [self.box.bottom, device.bottom, *(each.bottom for each in self.right.hung)]
            y = max(low) + 22 + (0.0 if self.right.hung else beside)
            points = (start, (start[0], y), (end[0], y), end)
            self.scene.say("GND", start[0], start[1] - 9, anchor="middle")
            name = fitting(end[0] - start[0], sized(wire), wire.id)
            lay(self.scene, wire, *points, name=name or wire.id, at=((start[0] + end[0]) / 2, y))
        self.scene.mark("screw", start, link.begins, link.path[1])
        self.scene.mark("screw", end, link.finishes, link.path[-2])

    def _body(self) -> None:
        index = self.reading.index
        if BODY not in index.units:
            return
        ground, strap = index.links[THE_BODY], index.links[THE_STRAP]
        posts = [m.at for m in self.scene.marks if m.kind == "stud" and GROUND_POINT in m.ids]
        x, near = self.place.strap_x, min(post[0] for post in posts)
        right = max(post[0] for post in posts) + 14
        box = (x - 10, self.rail, right - x + 10, 11.0)
        self.scene.frames.append(Frame("body", box, (BODY,), "the car's body"))
        middle = self.rail + 5.5
        lay(self.scene, index.wires[ground.path[2]], (near, middle), (x, middle))
        self.scene.mark("dot", (near, middle), ground.path[1])
        self.scene.mark("dot", (x + 12, middle), ground.path[3])
        self._strap(strap, (x, self.rail), (x, self._foot(self.place.own)))
        self.scene.say("the body", x + 10, self.rail + 25)
        self.scene.say(GROUND_POINT, right, self.rail + 25, anchor="end")

    def _strap(self, link: Link, low: Point, top: Point) -> None:
        lay(self.scene, self.reading.index.wires[link.path[2]], low, top)
        self.scene.mark("stud", low, link.path[0], link.path[1])
        self.scene.mark("stud", top, link.path[-1], link.path[-2])
        self.scene.say(link.id, low[0] + 10, top[1] + (20 if self.second else 18))
