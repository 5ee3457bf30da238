"""Names that interrupt a wire, parts that lie on it: what every side of the picture uses."""

from __future__ import annotations

from builder.model.wire import Wire
from builder.planning.circuit.model import CircuitWire
from builder.planning.circuit.supply_links import THE_CAR
from builder.planning.views.names import wire_words
from builder.planning.words import ElementKind, LinkClass
from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.paths import level_and_upright
from builder.rendering.drawings.wiring.scene import TEXT, Part, Run, RunKind, Scene

CUT_ASIDE = 4.0
_KINDS: dict[LinkClass, RunKind] = {"supply": "supply", "ground": "ground"}


def name_at(scene: Scene, text: str, x: float, y: float) -> Box:
    """Write a name in the middle of a level or upright wire; return the box it cuts out."""
    width = text_width(text, TEXT)
    scene.say(text, x, y + 0.36 * TEXT, anchor="middle")
    return x - width / 2 - CUT_ASIDE, y - 7.0, width + 2 * CUT_ASIDE, 14.0


def fitting(room: float, *names: str) -> str:
    """Return the first of some names that leaves wire on both sides in a room, or ""."""
    return next((name for name in names if text_width(name, TEXT) + 30 <= room), "")


def lay(
    scene: Scene, wire: CircuitWire, *points: Point, name: str = "", at: Point | None = None
) -> None:
    """Draw a conductor of the circuit; its name interrupts it at a place."""
    cuts = (name_at(scene, name, *at),) if name and at else ()
    kind: RunKind = "body" if wire.lies_in == THE_CAR else _KINDS.get(wire.carries, "wire")
    look = wire.wire
    scene.runs.append(
        Run((wire.id,), level_and_upright(points), kind, wire.carries, look, cuts, wire_words(wire))
    )


def lay_bare(
    scene: Scene, *points: Point, carries: LinkClass = "control", wire: Wire | None = None,
    cut: Box | None = None,
) -> None:  # fmt: skip
    """Draw the lead of a part, or with colours a wire of the car that no link follows."""
    found = level_and_upright(points)
    if len(found) > 1:
        kind: RunKind = "wire" if wire else "bare"
        scene.runs.append(Run((), found, kind, carries, wire, (cut,) if cut else ()))


def part_width(words: str) -> float:
    """How wide a part with words in it is drawn."""
    return max(26.0, *(text_width(line, TEXT) + 10 for line in words.split("\n")))


def put_part(
    scene: Scene,
    kind: ElementKind,
    x: float,
    y: float,
    part_id: str,
    words: str,
    *,
    upright: bool = False,
    turned: bool = False,
) -> None:
    """Put a part on a wire, its middle at (x, y). A diode leads right, `turned` left; `upright`
    down, or up. A capacitor has its + where the diode would begin."""
    scene.parts.append(Part(kind, (x, y), (part_id,), words, upright, turned))
