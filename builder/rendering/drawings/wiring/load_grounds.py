"""On a phone: the ground of what else is switched, led back beside the turn-on chain."""

from __future__ import annotations

from collections.abc import Mapping

from builder.planning.circuit.model import Link
from builder.planning.circuit.terminal_names import across_coil
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, put_part
from builder.rendering.drawings.wiring.frame import sized
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import Scene
from builder.rendering.drawings.wiring.upright import LINE, SIZE, WIDTH

X = 130.0  # of the chain
BOX = (20.0, 220.0)
EDGE = BOX[0] + BOX[1]
CLAMPED, FIRST_CLAMP, CLAMP_PITCH, CLAMP_ROOM = 26.0, 14.0, 12.0, 40.0
COIL_X = 214.0
OUTERMOST, PITCH = WIDTH - 14, 12.0


class LoadGrounds:
    """Draws the wires that lead back from what is switched: the lowest runs outermost."""

    def __init__(
        self, reading: Reading, scene: Scene, boxes: Mapping[str, tuple[float, float]]
    ) -> None:
        self.reading, self.scene, self.boxes = reading, scene, boxes
        self.links = [link for link in reading.grounds
                      if reading.kind_of(link.begins) == "turn_on_load"]  # fmt: skip
        self.links.sort(key=lambda link: self._top(link.begins))

    def _top(self, terminal: str) -> float:
        return self.boxes[self.reading.index.unit_of(terminal).id][0]

    def draw(self) -> float:
        """Draw them all; return the bottom."""
        return max((self._back(link, at) for at, link in enumerate(self.links)), default=0.0)

    def _back(self, link: Link, at: int) -> float:
        """From the right edge of a device, up to that of the unit that it is grounded at."""
        unit = self.reading.index.unit_of(link.begins).id
        behind = len(self.links) - 1 - at
        x, y = OUTERMOST - PITCH * behind, self._top(link.begins) + CLAMPED
        pitch = min(CLAMP_PITCH, CLAMP_ROOM / len(self.links))
        end = (EDGE, self._top(link.finishes) + FIRST_CLAMP + pitch * behind)
        wire = next(iter(self.reading.index.wires_of(link)))
        lay(self.scene, wire, (EDGE, y), (x, y), (x, end[1]), end)
        self.scene.mark("screw", (EDGE, y), link.begins, link.path[1])
        self.scene.mark("screw", end, link.finishes, link.path[-2])
        self.scene.say("GND", EDGE - 9, y + 14, size=SIZE, anchor="end")
        if behind == 0:
            self.scene.say("GND", EDGE - 9, end[1] + 4, size=SIZE, anchor="end")
        said = [sized(wire), *self._across(unit)]
        lines = [line for each in said for line in wrap(each, x - EDGE - 12, SIZE)]
        for row, line in enumerate(lines):
            self.scene.say(line, EDGE + 8, y + 18 + LINE * row, size=SIZE)
        return y + 18 + LINE * len(lines)

    def _across(self, unit: str) -> list[str]:
        """The diode across its coil, in its box; returns what is said of it."""
        part = self.reading.index.elements.get(across_coil(unit))
        if part is None:
            return []
        edge = self.boxes[unit][0]
        top, y = edge + 6, edge + CLAMPED
        lay_bare(self.scene, (EDGE, y), (COIL_X, y), (COIL_X, top), (X, top), (X, edge))
        put_part(self.scene, part.kind, (X + COIL_X) / 2, top, part.id, "", turned=True)
        return [f"{part.kind} {part.rating} across its coil"]
