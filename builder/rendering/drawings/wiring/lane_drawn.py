"""What lanes of either side have: the tail before a terminal, jackets, spare wires, speakers."""

from __future__ import annotations

from builder.planning.cables.piece_names import CABLE
from builder.planning.circuit.model import CircuitWire, Element
from builder.planning.words import UnitKind
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.canvas_marks import lay, lay_bare, part_width, put_part
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import (
    HOLD_UP_WIDTH,
    TEXT,
    Frame,
    FrameKind,
    MarkKind,
    Scene,
)
from builder.rendering.drawings.wiring.size_notes import jacket_words


def draw_across(scene: Scene, part: Element, x: float, y1: float, y2: float) -> None:
    """Draw a resistor between two lanes, its value to the left."""
    lay_bare(scene, (x, min(y1, y2)), (x, max(y1, y2)), carries="speaker_level")
    put_part(scene, "resistor", x, (y1 + y2) / 2, part.id, "", upright=True)
    scene.say(part.rating, x - 10, (y1 + y2) / 2 + 4, anchor="end")


def draw_tail(scene: Scene, reading: Reading, way: tuple[str, ...], end: Point) -> Point:
    """Draw joints and parts from a conductor's end to a terminal, from right to left.

    Returns where the conductor ends.
    """
    index, (x, y) = reading.index, end
    ids = [each for each in way if each not in index.elements]
    parts = [index.elements[each] for each in way if each in index.elements]
    scene.mark(_terminal_kind(reading, ids[-1]), end, ids[-1], ids[-2])
    if any(part.kind == "diode" for part in parts):
        x -= HOLD_UP_WIDTH  # the hold-up draws itself
        parts = []
    for part, joint in zip(reversed(parts), reversed(ids[:-2]), strict=False):
        wide = part_width(part.rating)
        lay_bare(scene, (x - wide - 22, y), (x, y), carries=part.carries)
        put_part(scene, part.kind, x - 12 - wide / 2, y, part.id, part.rating)
        x -= wide + 22
        scene.mark("dot", (x, y), joint)
    return _past_driver(scene, reading, ids, (x, y))


def _past_driver(scene: Scene, reading: Reading, ids: list[str], at: Point) -> Point:
    """Draw a driver that stands in the lane; return where its input is."""
    met = [each for each in ids if each in reading.index.terminals]
    if len(met) < 3:
        return at
    takes, gives = met[:2]
    unit, (x, y) = reading.index.unit_of(takes).id, at
    wide = text_width(unit, TEXT) + 20
    lay_bare(scene, (x - 14, y), at)
    scene.frames.append(Frame("driver", (x - 14 - wide, y - 12, wide, 24), (unit,), unit))
    scene.say(unit, x - 14 - wide / 2, y + 4, anchor="middle", bold=True)
    scene.mark("contact", (x - 14, y), gives, _between(reading, gives, at))
    scene.mark("contact", (x - 14 - wide, y), takes, ids[ids.index(takes) - 1])
    return x - 14 - wide, y


def _between(reading: Reading, gives: str, at: Point) -> str:
    found = reading.index.joints_of.get(gives, [])
    return found[0].id if found else ""


def _terminal_kind(reading: Reading, terminal: str) -> MarkKind:
    return "ring" if reading.index.terminals[terminal].carries == "line" else "screw"


def draw_speaker(scene: Scene, unit: str, at: Point, r: float, kind: UnitKind = "speaker") -> None:
    """Draw the sign of a speaker, or the box of a factory amplifier, its middle at a place."""
    box = (at[0] - r, at[1] - r, 2 * r, 2 * r)
    sign: FrameKind = "driver" if kind == "factory_input" else "speaker"
    scene.frames.append(Frame(sign, box, (unit,), unit))


def spans(lanes: list[tuple[str, float]]) -> list[tuple[str, float, float]]:
    """Return the jackets of neighbouring lanes: name, first and last height."""
    found: list[tuple[str, float, float]] = []
    for jacket, y in lanes:
        if found and found[-1][0] == jacket:
            found[-1] = (jacket, found[-1][1], y)
        else:
            found.append((jacket, y, y))
    return [each for each in found if each[0].startswith(CABLE)]


def draw_jackets(
    scene: Scene,
    reading: Reading,
    edges: tuple[float, float],
    found: list[tuple[str, float, float]],
    *,
    leftwards: bool,
) -> None:
    """Draw each jacket round its conductors, above it its name, which may reach past one side."""
    left, right = edges
    for name, first, last in found:
        box = (left, first - 8.5, right - left, last - first + 17)
        scene.frames.append(Frame("jacket", box, (), name))
        said = jacket_words(reading, name)
        if text_width(said, TEXT) <= right - left:
            scene.say(said, (left + right) / 2, first - 13, anchor="middle")
        else:
            scene.say(said, right if leftwards else left, first - 13,
                      anchor="end" if leftwards else "start")  # fmt: skip


def draw_spare(scene: Scene, wire: CircuitWire, edges: tuple[float, float], y: float) -> None:
    """Draw a conductor that carries nothing, both ends closed off."""
    left, right = edges[0] - 2, edges[1] + 2
    middle = (left + right) / 2
    lay(scene, wire, (left, y), (right, y), name=f"{wire.colours}: spare", at=(middle, y))
    for x, end in zip((left, right), wire.ends, strict=True):
        scene.mark("cap", (x, y), open_end=end)
