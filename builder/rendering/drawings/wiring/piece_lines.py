"""A piece for a phone: the line leads from the converter down to an amplifier."""

from __future__ import annotations

from collections.abc import Sequence

from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.wiring.forks import (
    Branch,
    branch_of,
    forks_in,
    leads_on,
    near_ids,
)
from builder.rendering.drawings.wiring.lines_drawn import HALF, SOCKET
from builder.rendering.drawings.wiring.paths import level_and_upright
from builder.rendering.drawings.wiring.piece_out import unit_above, unit_below
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.right_side import LineInput
from builder.rendering.drawings.wiring.scene import FORK_PITCH, Run, Scene
from builder.rendering.drawings.wiring.upright import (
    LINE,
    SIDE,
    SIZE,
    WIDTH,
    draw_unused,
    folded,
    pitch_of,
    spread,
)

ABOVE_FORK, BELOW_FORK = 26.0, 52.0


def line_piece(
    reading: Reading,
    unit: str,
    device: str,
    leads: Sequence[LineInput],
    inside: Sequence[tuple[str, str]] = (),
    *,
    unused: bool,
) -> tuple[Scene, float]:
    """Return the line leads from the converter down to an amplifier.

    `inside`: what the amplifier joins inside, by the terminal that hears it. `unused`: what stays
    open at the converter is shown too.
    """
    scene, xs, pitch = Scene(), spread(len(leads)), pitch_of(len(leads))
    names = {t.id: t.name for t in reading.circuit.terminals}
    by_output: dict[str, list[LineInput]] = {}
    for lead in leads:
        by_output.setdefault(lead.output, []).append(lead)
    at_x = {lead.input: x for x, lead in zip(xs, leads, strict=True)}
    outs = [(at_x[found[0].input], names[output]) for output, found in by_output.items()]
    edge = unit_above(scene, unit, outs, pitch)
    branches = [branch_of(reading, found) for found in by_output.values()]
    most = max(sum(1 for _ in forks_in(branch)) for branch in branches)
    top = edge + ABOVE_FORK + BELOW_FORK + FORK_PITCH * max(0, most - 1)
    hung = _Hung(scene, reading, at_x, top)
    for branch, found in zip(branches, by_output.values(), strict=True):
        start = at_x[found[0].input], edge
        scene.mark("ring", start, *near_ids(found[0].strands))
        hung.draw(branch, start, hung.slots(branch, edge + ABOVE_FORK))
    ins = [(x, names[lead.input]) for x, lead in zip(xs, leads, strict=True)]
    bottom = unit_below(scene, device, ins, pitch, top)
    for terminal, words in inside:
        scene.mark("dot", (SIDE + 4, bottom + LINE - 2), terminal)
        for line in folded(words, WIDTH - 2 * SIDE - 14):
            bottom += LINE + 2
            scene.say(line, SIDE + 14, bottom, size=SIZE)
    return scene, draw_unused(scene, reading, unit, bottom) if unused else bottom + 10


class _Hung:
    """Draws what hangs on an output, down to the upper edge of the amplifier at `top`."""

    def __init__(self, scene: Scene, reading: Reading, at_x: dict[str, float], top: float) -> None:
        self.scene, self.reading, self.at_x, self.top = scene, reading, at_x, top

    def slots(self, branch: Branch, first: float) -> dict[str, float]:
        """The height of each Y-lead: the further right it leads, the higher it stands."""
        order = sorted(forks_in(branch), key=lambda each: -max(self._xs(each)))
        return {fork.unit: first + FORK_PITCH * at for at, fork in enumerate(order)}

    def _xs(self, branch: Branch) -> list[float]:
        return [self.at_x[lead.input] for lead in leads_on(branch)]

    def draw(self, branch: Branch, start: Point, slots: dict[str, float]) -> None:
        """What begins at a place: a lead to its input, or the way to a Y-lead and on from it."""
        if isinstance(branch, LineInput):
            self._lead(branch, start)
            return
        x, y = min(self._xs(branch)), slots[branch.unit]
        points = level_and_upright((start, (x, start[1]), (x, y - HALF)))
        self.scene.runs.append(Run((), points, "lead", "line", None, (), branch.unit))
        self.scene.mark("fork", (x, y), *branch.ids)
        for each in branch.exits:
            straight = min(self._xs(each.to)) == x
            socket = (x, y + SOCKET) if straight else (x + SOCKET, y)
            self.scene.mark("ring", socket, *each.ids)
            self.draw(each.to, socket, slots)

    def _lead(self, lead: LineInput, start: Point) -> None:
        x = self.at_x[lead.input]
        ids = tuple(w.id for s in lead.strands for w in self.reading.wires_in(s))
        points = level_and_upright((start, (x, start[1]), (x, self.top)))
        title = lead.strands[0].name.removesuffix(" centre")
        self.scene.runs.append(Run(ids, points, "lead", "line", None, (), title))
        far = [each for s in lead.strands for each in (s.way[-1], s.way[-2])]
        self.scene.mark("ring", (x, self.top), *far)
