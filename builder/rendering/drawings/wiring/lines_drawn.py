"""Line leads drawn: straight from output to input, or by Y-leads to several inputs."""

from __future__ import annotations

from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.wiring.converter_box import Converter
from builder.rendering.drawings.wiring.forks import (
    Branch,
    Fork,
    branch_of,
    forks_in,
    leads_on,
    near_ids,
)
from builder.rendering.drawings.wiring.frame import Columns
from builder.rendering.drawings.wiring.paths import level_and_upright
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import LineInput, RightSide
from builder.rendering.drawings.wiring.scene import FORK_FROM, FORK_PITCH, Run, Scene

HALF, SOCKET = 5.5, 12.0
"""From the middle of a Y-lead to its edge, and to its sockets."""


class LinesDrawn:
    """Draws every line lead of the picture."""

    def __init__(
        self, scene: Scene, reading: Reading, right: RightSide, box: Converter, cols: Columns
    ) -> None:
        self.scene, self.reading = scene, reading
        self.leads = [lead for device in right.devices for lead in device.inputs]
        self.box, self.cols = box, cols

    def draw(self) -> None:
        """Draw them all, output by output."""
        by_output: dict[str, list[LineInput]] = {}
        for lead in self.leads:
            by_output.setdefault(lead.output, []).append(lead)
            name = self.reading.index.terminals[lead.input].name
            self.scene.say(name, self.cols.amplifier[0] + 9, lead.y + 4)
        branches = {out: branch_of(self.reading, leads) for out, leads in by_output.items()}
        self.slots = self._slots([fork for each in branches.values() for fork in forks_in(each)])
        for output, branch in branches.items():
            start = self.cols.converter[1], self.box.outs[output]
            self.scene.mark("ring", start, *near_ids(by_output[output][0].strands))
            self._draw(branch, start)

    def _slots(self, forks: list[Fork]) -> dict[str, float]:
        """The lower a Y-lead leads, the further left it stands: none crosses one."""
        first = self.cols.converter[1] + FORK_FROM
        order = sorted(forks, key=lambda fork: -max(lead.y for lead in leads_on(fork)))
        return {fork.unit: first + FORK_PITCH * at for at, fork in enumerate(order)}

    def _draw(self, branch: Branch, start: Point) -> None:
        """What begins at a place: a lead to its input, or the way to a Y-lead and on from it."""
        if isinstance(branch, LineInput):
            self._lead(branch, start)
            return
        x, y = self.slots[branch.unit], min(lead.y for lead in leads_on(branch))
        points = level_and_upright((start, (start[0], y), (x - HALF, y)))
        self.scene.runs.append(Run((), points, "lead", "line", None, (), branch.unit))
        self.scene.mark("fork", (x, y), *branch.ids)
        for each in branch.exits:
            straight = min(lead.y for lead in leads_on(each.to)) == y
            socket = (x + SOCKET, y) if straight else (x, y + SOCKET)
            self.scene.mark("ring", socket, *each.ids)
            self._draw(each.to, socket)

    def _lead(self, lead: LineInput, start: Point) -> None:
        ids = tuple(w.id for s in lead.strands for w in self.reading.wires_in(s))
        end = (self.cols.amplifier[0], lead.y)
        points = level_and_upright((start, (start[0], lead.y), end))
        title = lead.strands[0].name.removesuffix(" centre")
        self.scene.runs.append(Run(ids, points, "lead", "line", None, (), title))
        far = [each for s in lead.strands for each in (s.way[-1], s.way[-2])]
        self.scene.mark("ring", end, *far)
