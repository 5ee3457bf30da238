"""What the picture has no place of its own for, row by row below it: so nothing is left out.

No job has any today, which a test holds; above the rows stands what they are.

A circuit may get new kinds of units before the picture has learnt where they stand. Their links are
drawn straight here, each from its first terminal to its last.
"""

from __future__ import annotations

from collections.abc import Iterable

from builder.planning.circuit.model import Element, Link
from builder.planning.views.names import wire_words
from builder.rendering.drawings.lettering import wrap
from builder.rendering.drawings.wiring.canvas_marks import fitting, lay, lay_bare, put_part
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TEXT, Frame, Scene

FURTHER = "Further wires"
"""What stands above the rows."""
HEADING = 16.0
ROW, LINE = 26.0, 14.0
LEFT = 20.0
WIDEST = 620.0


def draw_rest(
    scene: Scene, reading: Reading, shown: set[str], width: float, y: float
) -> float:  # fmt: skip
    """Draw every link of which a piece is not `shown`, then single pieces; return the bottom."""
    top, y = y, y + HEADING
    first = y
    right = min(width, WIDEST) - LEFT
    drawn = shown | scene.shown  # made anew only where something was drawn: it is asked of each
    for link in reading.circuit.links:
        if not drawn.issuperset(link.path):
            y = _row(scene, reading, link, right, y)
            drawn = shown | scene.shown
    y = _loose(scene, reading, shown, y)
    drawn = shown | scene.shown
    for part in reading.circuit.elements:
        if part.id not in drawn:
            y = _part(scene, reading, part, right, y + 18)
            drawn = shown | scene.shown
    for name, kind in _pieces(reading):
        if name not in drawn:
            y += ROW
            scene.frames.append(Frame("driver", (LEFT, y - 15, 8, 16), (name,), name))
            scene.say(f"{kind} {name}", LEFT + 16, y - 3)
            drawn = shown | scene.shown
    if y == first:
        return top
    scene.say(FURTHER, LEFT, top + 12, bold=True)
    return y + 3  # names of the last row hang lower than its wire


def _part(scene: Scene, reading: Reading, part: Element, right: float, y: float) -> float:
    """A part that no link passes, and the terminals it lies between: a coil of a speaker."""
    lay_bare(scene, (LEFT, y), (LEFT + 90, y), carries=part.carries)
    _on_row(scene, part, LEFT + 45, y)
    index = reading.index
    met = [end for own in part.ends for joint in index.joints_of.get(own, [])
           for end in joint.joins if end in index.terminals]  # fmt: skip
    between = " to ".join(index.terminals[end].name for end in met)
    said = f"{part.id}: {between}" if len(met) == len(part.ends) else part.id
    lines = wrap(said, right - LEFT - 106, TEXT)
    for at, line in enumerate(lines):
        scene.say(line, LEFT + 106, y + 4 + LINE * at)
    return y + LINE * (len(lines) - 1) + 10


def _on_row(scene: Scene, part: Element, x: float, y: float) -> None:
    """A part on a row, its value in it where its sign leaves room."""
    words = "" if part.kind in ("diode", "capacitor") else part.rating
    put_part(scene, part.kind, x, y, part.id, words)


def _loose(scene: Scene, reading: Reading, shown: set[str], y: float) -> float:
    """Wires of a loom that are closed off, or that nothing is joined to: one a row."""
    for end in reading.circuit.open_ends:
        owner = reading.index.owners.get(end.end)
        if end.end in scene.opened or owner is None or owner.id in shown | scene.shown:
            continue
        y += ROW
        wire = reading.index.wires.get(owner.id)
        if wire is None:
            continue
        lay(scene, wire, (LEFT, y), (LEFT + 90, y), name=wire.colours, at=(LEFT + 45, y))
        for x, each in zip((LEFT, LEFT + 90), wire.ends, strict=True):
            joint = next((j for j in reading.index.joints_of.get(each, [])), None)
            if joint is not None:
                scene.mark("contact", (x, y), joint.id, *joint.joins[:1])
            else:
                scene.mark("cap", (x, y), open_end=each)
        scene.say(f"{wire.id}: closed off", LEFT + 106, y + 4)
    return y


def _pieces(reading: Reading) -> Iterable[tuple[str, str]]:
    circuit = reading.circuit
    yield from ((unit.id, "unit") for unit in circuit.units)
    yield from ((terminal.id, "terminal") for terminal in circuit.terminals)
    yield from ((wire.id, "wire") for wire in circuit.wires)
    yield from ((joint.id, "joint") for joint in circuit.joints)


def _row(scene: Scene, reading: Reading, link: Link, right: float, y: float) -> float:
    """One link: what it joins in words, below it its wires and parts in order."""
    for line in wrap(f"{link.begins} to {link.finishes}", right - LEFT, TEXT):
        y += LINE
        scene.say(line, LEFT, y)
    y += 14
    index = reading.index
    middle = [each for each in link.path[1:-1] if each in index.wires or each in index.elements]
    step = (right - LEFT) / max(1, len(middle))
    for at, piece in enumerate(middle):
        x = LEFT + step * at
        _piece(scene, reading, piece, (x, x + step), y)
    if not middle:  # a plug home or a tap: nothing lies between, and still they meet
        lay_bare(scene, (LEFT, y), (right, y), carries=link.carries)
    _joints(scene, reading, link, middle, step, y)
    for x, end in ((LEFT, link.begins), (right, link.finishes)):
        scene.mark("screw", (x, y), end)
        _unit(scene, reading, end, x, y)
    return y + 5


def _piece(scene: Scene, reading: Reading, piece: str, ends: tuple[float, float], y: float) -> None:
    start, end = (ends[0], y), (ends[1], y)
    wire = reading.index.wires.get(piece)
    if wire is not None:
        name = fitting(ends[1] - ends[0], wire_words(wire), wire.colours)
        lay(scene, wire, start, end, name=name, at=(sum(ends) / 2, y))
        return
    part = reading.index.elements[piece]
    lay_bare(scene, start, end, carries=part.carries)
    _on_row(scene, part, sum(ends) / 2, y)


def _joints(
    scene: Scene, reading: Reading, link: Link, middle: list[str], step: float, y: float
) -> None:
    """A dot where pieces meet, each joint in its place on the way."""
    passed = 0
    for each in link.path:
        if each in middle:
            passed += 1
        elif each in reading.index.joints:
            scene.mark("dot", (LEFT + step * passed, y), each)


def _unit(scene: Scene, reading: Reading, end: str, x: float, y: float) -> None:
    unit = reading.index.unit_of(end).id
    if unit not in scene.shown:
        scene.frames.append(Frame("driver", (x - 8, y - 9, 16, 18), (unit,), unit))
