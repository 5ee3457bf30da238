"""The way back drawn below the rest: ground leads, the car's body, the strap."""

from __future__ import annotations

from builder.planning.circuit.model import CircuitWire, Link
from builder.planning.circuit.supply_links import BODY
from builder.planning.circuit.terminal_names import BATTERY
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.wiring.canvas_marks import lay
from builder.rendering.drawings.wiring.converter_box import Converter
from builder.rendering.drawings.wiring.frame import Columns, sized
from builder.rendering.drawings.wiring.middle_drawn import name_in_channel
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import CONTACT_PITCH, Device, RightSide
from builder.rendering.drawings.wiring.scene import CLAMP_PITCH, GND_FROM, Frame, Scene
from builder.rendering.drawings.wiring.supply_drawn import (
    BATTERY_BOX,
    POST_PITCH,
    STRAP_X,
    body_links,
    fed_devices,
)


class GroundDrawn:
    """Draws grounds, body and strap; `rail` is the height of the body."""

    def __init__(
        self, scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns,
        floor: float,
    ) -> None:  # fmt: skip
        self.scene, self.reading, self.right = scene, reading, right
        self.box, self.cols, self.rail = box, cols, floor + 54
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
            if unit.kind not in ("converter", "amplifier"):
                continue  # the body's own are drawn with it; a device on a plug may have no wire
            wire = next(iter(self.reading.index.wires_of(link)))
            if unit.kind == "converter":
                self._converter_ground(link, wire)
            else:
                device = self.right.of(unit.id)
                assert device is not None
                self._ground_lead(link, wire, device, posts)

    def _stud_points(self) -> list[Point]:
        """Where ground leads meet the body, one beside the other."""
        many = len(self.fed) > 1
        x = self.cols.width - 22 if many else self._gnd(self.fed[0], 2)[0]
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
        x, y = STRAP_X + 12 * at, self.lane + 14 + 12 * at
        end = (x, BATTERY_BOX[1] + BATTERY_BOX[3])
        lay(self.scene, wire, start, (start[0], y), (x, y), end, name=sized(wire),
            at=(self.cols.joint, y))  # fmt: skip
        self.scene.mark("stud", end, link.finishes, link.path[-2])

    def _converter_ground(self, link: Link, wire: CircuitWire) -> None:
        device = self.right.of(self.reading.index.unit_of(link.finishes).id)
        if device is None:
            return  # at a plug of the car: a lane at the left
        end = self._gnd(device, 1)
        if self.box.grounded_right is not None:
            start: Point = (self.cols.converter[1], self.box.grounded_right)
            points: tuple[Point, ...] = (start, (end[0], start[1]), end)
            lay(self.scene, wire, *points)
            below = start[1] + CONTACT_PITCH * len(self.right.loads)  # their wires end below it
            name_in_channel(
                self.scene, self.reading, len(self.right.devices), self.cols, (wire.id, below)
            )
            self.scene.say("GND", start[0] - 9, start[1] + 4, anchor="end")
        else:
            beside = CLAMP_PITCH * len(self.right.loads)
            start = (self.cols.converter[1] - GND_FROM - beside, self.box.bottom)
            low = [self.box.bottom, device.bottom, *(each.bottom for each in self.right.hung)]
            y = max(low) + 22 + (0.0 if self.right.hung else beside)
            points = (start, (start[0], y), (end[0], y), end)
            self.scene.say("GND", start[0], start[1] - 9, anchor="middle")
            lay(self.scene, wire, *points, name=wire.id, at=((start[0] + end[0]) / 2, y))
        self.scene.mark("screw", start, link.begins, link.path[1])
        self.scene.mark("screw", end, link.finishes, link.path[-2])

    def _body(self) -> None:
        body = next((u for u in self.reading.circuit.units if u.id == BODY), None)
        if body is None:
            return
        posts, index = self._stud_points(), self.reading.index
        ground, strap = body_links(self.reading)
        right = max(post[0] for post in posts) + 14
        box = (STRAP_X - 10, self.rail, right - STRAP_X + 10, 11.0)
        self.scene.frames.append(Frame("body", box, (BODY,), "the car's body"))
        wire = index.wires[ground.path[2]]
        lay(
            self.scene,
            wire,
            (min(p[0] for p in posts), self.rail + 5.5),
            (STRAP_X, self.rail + 5.5),
        )
        self.scene.mark("dot", (min(p[0] for p in posts), self.rail + 5.5), ground.path[1])
        self.scene.mark("dot", (STRAP_X + 12, self.rail + 5.5), ground.path[3])
        at = (STRAP_X, self.rail)
        top = (STRAP_X, BATTERY_BOX[1] + BATTERY_BOX[3])
        lay(self.scene, index.wires[strap.path[2]], at, top)
        self.scene.mark("stud", at, strap.path[0], strap.path[1])
        self.scene.mark("stud", top, strap.path[-1], strap.path[-2])
        self.scene.say(strap.id, STRAP_X + 10, top[1] + 18)
        self.scene.say("the body", STRAP_X + 10, self.rail + 25)
        self.scene.say("ground point", right, self.rail + 25, anchor="end")
