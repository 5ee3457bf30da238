"""Wires drawn straight down, side by side: what a phone shows of a step of the chain.

A lane goes from a unit at the top to one at the bottom. Names interrupt it; those of neighbours
step down in turn, so that none stands beside another's wire.
"""

from __future__ import annotations

from collections.abc import Sequence

from builder.planning.circuit.model import CircuitWire
from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.canvas_marks import CUT_ASIDE, lay
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.scene import Scene

WIDTH = 358.0
SIDE = 8.0
MOST = 8  # lanes in one piece
WIDEST_PITCH = 84.0
LINE = 13.0
SIZE = 11.0
LEVELS = 2


def spread(count: int) -> tuple[float, ...]:
    """Return where so many lanes stand."""
    pitch = min(WIDEST_PITCH, (WIDTH - 2 * SIDE) / max(1, count))
    start = WIDTH / 2 - pitch * (count - 1) / 2
    return tuple(start + pitch * at for at in range(count))


def pitch_of(count: int) -> float:
    """Return how far such lanes stand apart."""
    return min(WIDEST_PITCH, (WIDTH - 2 * SIDE) / max(1, count))


def folded(name: str, room: float) -> list[str]:
    """Return a name in lines that fit a room, parted at blanks and behind strokes."""
    lines: list[str] = []
    for word in name.replace("/", "/ ").split(" "):
        tight = bool(lines) and lines[-1].endswith("/")
        joined = f"{lines[-1]}{'' if tight else ' '}{word}" if lines else word
        if lines and text_width(joined, SIZE) <= room:
            lines[-1] = joined
        else:
            lines.append(word)
    return lines


def room_at(x: float, pitch: float) -> float:
    """Return how wide a name on a wire may be: to its neighbours' wires, or to the edge."""
    return min(2 * pitch - 12, 2 * x - 6, 2 * (WIDTH - x) - 6)


def names_height(lanes: Sequence[tuple[float, str]], pitch: float) -> float:
    """Return how high the names of one row of wires are, all steps together."""
    most = max((len(folded(name, room_at(x, pitch))) for x, name in lanes), default=0)
    return LEVELS * (most * LINE + 10)


def write_names(
    scene: Scene, lanes: Sequence[tuple[float, str]], y: float, pitch: float
) -> list[Box]:
    """Write names on upright wires from y downwards; return the boxes they cut out."""
    step = names_height(lanes, pitch) / LEVELS
    boxes = []
    for at, (x, name) in enumerate(lanes):
        lines, top = folded(name, room_at(x, pitch)), y + step * (at % LEVELS)
        wide = max(text_width(line, SIZE) for line in lines)
        for row, line in enumerate(lines):
            scene.say(line, x, top + 13 + LINE * row, size=SIZE, anchor="middle")
        boxes.append((x - wide / 2, top, wide, LINE * len(lines) + CUT_ASIDE + 3))
    return boxes


def write_terminals(
    scene: Scene, lanes: Sequence[tuple[float, str]], edge: float, pitch: float, *, above: bool
) -> None:
    """Write the names of terminals inside the edge of a unit."""
    for x, name in lanes:
        lines = folded(name, pitch - 4)
        first = edge - 9 - LINE * (len(lines) - 1) if above else edge + 17
        for row, line in enumerate(lines):
            scene.say(line, x, first + LINE * row, size=SIZE, anchor="middle")


def terminal_room(names: Sequence[str], pitch: float) -> float:
    """Return how high the names of terminals in a unit are."""
    return max((len(folded(name, pitch - 4)) for name in names), default=1) * LINE + 8


def draw_stretch(scene: Scene, wire: CircuitWire, *points: Point, cut: Box | None) -> None:
    """Draw a conductor with the box of its name cut out."""
    lay(scene, wire, *points)
    if cut is not None:
        run = scene.runs.pop()
        scene.runs.append(type(run)(run.ids, run.points, run.kind, run.carries, run.wire, (cut,),
                                    run.title))  # fmt: skip


def chunks(strands: Sequence[Strand], most: int = MOST) -> list[list[Strand]]:
    """Return lanes in pieces that a phone shows, a pair never parted."""
    found: list[list[Strand]] = []
    for pair in pairs(strands):
        if found and len(found[-1]) + len(pair) <= most:
            found[-1] += pair
        else:
            found.append(list(pair))
    return found


def pairs(strands: Sequence[Strand]) -> list[list[Strand]]:
    """Return neighbours that are one pair together."""
    found: list[list[Strand]] = []
    for strand in strands:
        if found and len(found[-1]) == 1 and found[-1][0].mate == strand.name:
            found[-1].append(strand)
        else:
            found.append([strand])
    return found


def draw_idle(scene: Scene, reading: Reading, jackets: set[str], y: float) -> float:
    """Draw the spare cores of some jackets, each closed off; return the bottom."""
    for wire in reading.spares:
        if wire.lies_in in jackets and wire.id not in scene.shown:
            name, y = f"{wire.lies_in}, {wire.colours}: spare", y + 22
            lay(scene, wire, (40.0, y), (WIDTH - 40, y), name=name, at=(WIDTH / 2, y))
            for x, end in zip((40.0, WIDTH - 40), wire.ends, strict=True):
                scene.mark("cap", (x, y), open_end=end)
    return y + 10


def draw_unused(scene: Scene, reading: Reading, unit: str, y: float) -> float:
    """Draw the terminals of a unit that stay open; return the bottom."""
    own = {terminal.id for terminal in reading.index.units[unit].terminals}
    for each in reading.circuit.open_ends:
        if each.end in own or each.end == each.what:
            y += 20
            scene.mark("cap", (40.0, y - 4), *([each.end] if each.end in own else []),
                       open_end=each.end)  # fmt: skip
            scene.say(f"{each.what}: open", 54, y, size=SIZE)
    return y + 10
