"""What a loom passes on: each wire from cavity to cavity, in rows below everything else."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from builder.planning.circuit.model import Element, Link, Unit
from builder.rendering.drawings.canvas import Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.canvas_marks import lay, part_width, put_part
from builder.rendering.drawings.wiring.frame import insulation, wire_name
from builder.rendering.drawings.wiring.reading import Reading
from builder.rendering.drawings.wiring.scene import TEXT, TITLE, Scene
from builder.rendering.drawings.wiring.size_notes import sizes_of

ROW, HEAD = 18.0, 22.0
LEFT, GAP = 32.0, 26.0
BESIDE = 10.0  # between a plug and the words beside it
BELOW = 16.0  # a second line of words
WIRE_ROOM = 36.0  # wire on both sides of a name
FUSE_ROOM = 20.0  # from a plug to the middle of a fuse beside it


def draw_looms(
    scene: Scene, reading: Reading, units: Iterable[Unit], width: float, y: float
) -> float:  # fmt: skip
    """Draw the wires that each of some looms passes on, in as many columns as fit; return the
    bottom."""
    for unit in units:
        links = [link for link in passed_on(reading, unit) if set(link.path) - scene.shown]
        if links:
            y += HEAD
            size = sizes_of(wire for link in links for wire in reading.index.wires_of(link))
            head = f"{unit.id} passes on, cavity to cavity"
            more = f"{head}, wires of {size}" if size else head
            fits = LEFT + 1.1 * text_width(more, TITLE) <= width  # below a piece it is said too
            scene.say(more if fits else head, LEFT, y, size=TITLE, bold=True, ids=(unit.id,))
            y = _rows(scene, reading, links, width - LEFT, y + 4)
    return y


def passed_on(reading: Reading, unit: Unit) -> list[Link]:
    """Return the links that run through a loom and nothing else."""
    return [
        link
        for link in reading.circuit.links
        if link.carries == "through"
        and any(wire.loom == unit.id for wire in reading.index.wires_of(link))
    ]


def _rows(scene: Scene, reading: Reading, links: list[Link], width: float, y: float) -> float:
    said = [_Said(_before(reading, link), _names(reading, link), _behind(reading, link),
                  _what(link))
            for link in links]  # fmt: skip
    near = max(text_width(each.near, TEXT) for each in said) + BESIDE
    wire = max(text_width(" ".join(each.names), TEXT) + WIRE_ROOM * len(each.names)
               for each in said)  # fmt: skip
    far = max(text_width(f"{each.far}: {each.what}", TEXT) for each in said) + BESIDE
    pitch = near + wire + far + GAP
    columns, row = int((width + GAP) / pitch), ROW
    if columns == 0:  # a phone: what it is stands below
        columns, row = 1, ROW + BELOW
    rows = -(-len(links) // columns)
    for at, link in enumerate(links):
        x = LEFT + pitch * (at // rows)
        level = y + row * (at % rows) + ROW - 4
        ends = ((x + near, level), (x + near + wire, level))
        _row(scene, reading, link, said[at], ends, below=row != ROW)
    return y + row * rows


class _Said(NamedTuple):
    """What stands on a row: the contact, the wires, the car's cavity, what it is for."""

    near: str
    names: list[str]
    far: str
    what: str


def _row(
    scene: Scene, reading: Reading, link: Link, said: _Said, ends: tuple[Point, Point], *,
    below: bool,
) -> None:  # fmt: skip
    (left, y), (right, _) = ends
    wires = list(reading.index.wires_of(link))[::-1]
    scene.say(said.near, left - BESIDE, y + 4, anchor="end")
    step = (right - left) / len(wires)
    for at, (wire, name) in enumerate(zip(wires, said.names, strict=True)):
        a = left + step * at
        lay(scene, wire, (a, y), (a + step, y), name=name, at=(a + step / 2, y))
    at_car = (left, y + 4 + BELOW) if below else (right + BESIDE, y + 4)
    scene.say(f"{said.far}: {said.what}", *at_car)
    path = link.path[::-1]
    first, last = path.index(wires[0].id), path.index(wires[-1].id)
    scene.mark("home", (left, y), *_with_units(reading, _drawn(reading, path[:first])))
    scene.mark("home", (right, y), *_with_units(reading, _drawn(reading, path[last + 1 :])))
    places = [path.index(wire.id) for wire in wires]
    for at, (one, other) in enumerate(pairwise(places), 1):
        joints = [each for each in path[one:other] if each in reading.index.joints]
        fuses = _fuses(scene, reading, path[one:other], left + step * at, y)
        aside = part_width(fuses[0].rating) / 2 + 3 if fuses else 0.0  # its amperes stay readable
        scene.mark("dot", (left + step * at - aside, y), *(joints[:1] if fuses else joints))
        if fuses:
            scene.mark("dot", (left + step * at + aside, y), *joints[1:])
    _fuses(scene, reading, path[:first], left + FUSE_ROOM, y)
    _fuses(scene, reading, path[last:], right - FUSE_ROOM, y)


def _drawn(reading: Reading, ids: tuple[str, ...]) -> tuple[str, ...]:
    """What a mark stands for: a fuse has its own sign."""
    return tuple(each for each in ids if each not in reading.index.elements)


def _fuses(
    scene: Scene, reading: Reading, ids: tuple[str, ...], x: float, y: float
) -> list[Element]:  # fmt: skip
    """The fuse of a wire of a loom, where it meets another wire or comes out of a plug."""
    parts = [reading.index.elements[each] for each in ids if each in reading.index.elements]
    for part in parts:
        put_part(scene, part.kind, x, y, part.id, part.rating)
    return parts


def _with_units(reading: Reading, ids: tuple[str, ...]) -> tuple[str, ...]:
    units = [reading.index.unit_of(each).id for each in ids if each in reading.index.terminals]
    return (*ids, *units)


def _names(reading: Reading, link: Link) -> list[str]:
    return [wire_name(wire) for wire in reading.index.wires_of(link)][::-1]


def _before(reading: Reading, link: Link) -> str:
    """What it comes out at: the contact of the radio, or the cavity of another plug."""
    return reading.index.terminals[link.finishes].id.removeprefix("loom ")


def _behind(reading: Reading, link: Link) -> str:
    """The car's cavity with its own wire."""
    terminal = reading.index.terminals[link.begins]
    wire = f" {insulation(terminal.wire)}" if terminal.wire else ""
    return f"{terminal.id.removeprefix('loom ')}{wire}"


def _what(link: Link) -> str:
    return link.purpose.rpartition(": ")[2]
