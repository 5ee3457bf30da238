"""A passive crossover: a box right of its amplifier, its input left, its two outputs right.

Its terminals stand at the heights of the lanes behind it, the input at those of the woofer. What is
inside is said and not drawn: the ways would cross.
"""

from __future__ import annotations

from builder.planning.circuit.model import Element, Unit
from builder.planning.circuit.terminal_names import SIGNS
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.canvas_marks import lay
from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.scene import TEXT, TITLE, Frame, Scene

ABOVE, BELOW = 28.0, 12.0
"""From its first terminal up to the edge of the box, its name between, and from the last down."""
LEAD_ROOM = 44.0
"""Between an amplifier and a crossover: what their lead is called stands above the box."""
_NAME_IN = 9.0
_INSIDE_GAP = 10.0


def crossover_width(reading: Reading) -> float:
    """Return how wide the boxes are; 0 without one."""
    return max((_width(reading, unit) for unit in reading.units("crossover")), default=0.0)


def _width(reading: Reading, unit: Unit) -> float:
    names = [each.name for each in unit.terminals]
    ins = max(text_width(name, TEXT) for name in names if name.startswith("in "))
    outs = max(text_width(name, TEXT) for name in names)
    inner = max(text_width(line, TEXT) for part in ways_of(reading, unit) for line in said_of(part))
    row = 2 * _NAME_IN + ins + outs + inner + 2 * _INSIDE_GAP
    return max(row, text_width(unit.id, TITLE) + 20)


def ways_of(reading: Reading, unit: Unit) -> list[Element]:
    """Return the low-pass and the high-pass of a crossover."""
    own = {each.id for each in unit.terminals}
    met = reading.index.joints_of
    return [
        part
        for part in reading.circuit.elements
        if part.kind in ("low-pass", "high-pass")
        and any(own & {*joint.joins} for end in part.ends for joint in met[end])
    ]


def said_of(part: Element) -> tuple[str, str]:
    """Return what stands in the box of a way: "low-pass", "3000 Hz"."""
    return part.kind, part.rating.partition(",")[0]


def inside_ids(reading: Reading, terminal: str) -> list[str]:
    """Return what a maker joined behind a terminal of a crossover: the joints, and at an output the
    part that it comes through."""
    joints = [each for each in reading.index.joints_of[terminal] if each.kind == "inside"]
    behind = {reading.index.owners[end].id for each in joints for end in each.joins
              if end.endswith("@to")}  # fmt: skip
    return [*(joint.id for joint in joints), *sorted(behind)]


def draw_crossover(
    scene: Scene, reading: Reading, unit: str, outs: dict[str, float], edges: tuple[float, float],
    start: float,
) -> None:  # fmt: skip
    """Draw the box between its edges and the lead to it from `start`, the amplifier's edge.

    `outs` are the heights of its output terminals, the woofer's first.
    """
    left, right = edges
    heights = list(outs.values())
    box = (left, heights[0] - ABOVE, right - left, heights[-1] - heights[0] + ABOVE + BELOW)
    scene.frames.append(Frame("driver", box, (unit,), unit))
    scene.say(unit, (left + right) / 2, heights[0] - 13, size=TITLE, anchor="middle", bold=True)
    leads = reading.leads_to(unit)
    (wire,) = reading.wires_in(leads[0])
    size = f", {wire.size.words}" if wire.size else ""
    said = f"{wire.id} and {SIGNS[1]}{size}"
    scene.say(said, start + _NAME_IN, heights[0] - ABOVE - 4)
    for strand, y in zip(leads, heights, strict=False):
        _lead(scene, reading, strand, (start, y), left)
    names = {each.id: each.name for each in reading.index.units[unit].terminals}
    inner = right - 2 * _INSIDE_GAP - max(text_width(names[each], TEXT) for each in outs)
    for at, part in enumerate(ways_of(reading, reading.index.units[unit])):
        for row, line in enumerate(said_of(part)):
            y = heights[2 * at + row]
            scene.say(line, inner, y + 4, anchor="end")
    for terminal, y in outs.items():
        scene.mark("screw", (right, y), terminal, *inside_ids(reading, terminal))


def _lead(scene: Scene, reading: Reading, strand: Strand, start: Point, left: float) -> None:
    (wire,) = reading.wires_in(strand)
    (x, y), end = start, strand.way[-1]
    lay(scene, wire, start, (left, y))
    scene.mark("screw", start, strand.way[0], strand.way[1])
    scene.say(reading.index.terminals[strand.way[0]].name, x - 9, y + 4, anchor="end")
    scene.mark("screw", (left, y), end, strand.way[-2], *inside_ids(reading, end))
    scene.say(reading.index.terminals[end].name, left + _NAME_IN, y + 4)
