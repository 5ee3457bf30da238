"""A loom from end to end: each wire a row, its cavities at both sides, its branches between."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from markupsafe import Markup

from builder.model.parts import Loom
from builder.planning.looms.conductors import Conductor, Terminal, conductors
from builder.rendering.drawings.canvas import Canvas
from builder.rendering.drawings.lettering import fit
from builder.rendering.drawings.shapes import WIRE, joint, wire_line
from builder.rendering.drawings.wire_colours import wire_words

W: Final = 360.0
ROW: Final = 30.0
TOP: Final = 44.0
_CAVITY_W = 34.0
_LEFT, _RIGHT = 6.0 + _CAVITY_W, W - 6.0 - _CAVITY_W
_NEAR, _FAR = 96.0, W - 96.0
"""Where the wires of the first and of the second end stop when they go elsewhere."""


def loom_map(loom: Loom, key: str) -> Markup:
    """Return the wires of a loom between its first two ends, whatever else they join in words."""
    rows = _rows(loom)
    canvas = Canvas()
    first, second = (end.name for end in loom.ends[:2])
    canvas.text(6, 16, *fit(first, 170, 13), bold=True)
    canvas.text(W - 6, 16, *fit(second, 170, 13), anchor="end", bold=True)
    for at, row in enumerate(rows):
        _draw(canvas, TOP + ROW * at, row, (first, second))
    desc = ". ".join(wire_in_words(wire) for row in rows for wire in row) + "."
    height = TOP + ROW * len(rows)
    return canvas.svg((W, height), key, f"{loom.name}, wire by wire", desc, "lb-loom")


def wire_in_words(wire: Conductor) -> str:
    """A wire as one reads it out: "radio end.1 to branch 1, white/black"."""
    start, to = (_plain(end) for end in (wire.start, wire.to))
    return f"{start} to {to}, {wire_words(wire.wire)}"


def _plain(end: Terminal) -> str:
    return f"{end.place}.{end.cavity}" if end.cavity else end.place


def _rows(loom: Loom) -> list[list[Conductor]]:
    """The wires of each cavity in one row, in the order of the cavities; the others below."""
    sides = {end.name for end in loom.ends[:2]}
    rows: dict[str, list[Conductor]] = {}
    for wire in conductors(loom):
        here = [end.cavity for end in (wire.start, wire.to) if end.place in sides]
        straight = len({*here}) == 1
        rows.setdefault(here[0] if straight else wire_in_words(wire), []).append(wire)
    return [row for _, row in sorted(rows.items(), key=lambda item: _order(*item))]


def _order(name: str, row: Sequence[Conductor]) -> tuple[bool, tuple[int, str]]:
    """Straight rows by the number of their cavity; crossed wires and those without one last."""
    ends = [end for wire in row for end in (wire.start, wire.to) if end.cavity == name]
    return (False, ends[0].by_number) if ends else (True, (0, name))


def _draw(canvas: Canvas, y: float, row: Sequence[Conductor], sides: tuple[str, str]) -> None:
    for wire in row:
        ends = {end.place: end for end in (wire.start, wire.to)}
        left, right = ends.get(sides[0]), ends.get(sides[1])
        for end, x in ((left, 6.0), (right, _RIGHT)):
            if end is not None:
                canvas.rect((x, y - 9, _CAVITY_W, 18), "lb-socket", 2)
                canvas.text(x + _CAVITY_W / 2, y + 4, end.cavity, 11, anchor="middle", bold=True)
        _line(canvas, y, wire, left, right)


def _line(
    canvas: Canvas, y: float, wire: Conductor, left: Terminal | None, right: Terminal | None
) -> None:
    words = wire_words(wire.wire)
    start = _LEFT if left else (_FAR if right else 60.0)
    stop = _RIGHT if right else (_NEAR if left else 100.0)
    canvas.add(wire_line(words, start, y - WIRE / 2, stop - start, WIRE))
    if left and right:
        crossed = left.cavity != right.cavity
        said = f"{left.cavity} to {right.cavity}: {words}" if crossed else words
        _on_the_wire(canvas, y, said)
    elif left or right:
        _to_elsewhere(canvas, y, wire, left)
    else:
        canvas.text(104, y + 4, *fit(wire_in_words(wire), W - 110, 10))


def _on_the_wire(canvas: Canvas, y: float, said: str) -> None:
    words, size = fit(said, 150, 10)
    canvas.text(W / 2, y - 6, words, size, anchor="middle")


def _to_elsewhere(canvas: Canvas, y: float, wire: Conductor, left: Terminal | None) -> None:
    side = left or (wire.start if wire.start.cavity and not wire.start.of else wire.to)
    other = wire.other(side)
    x = _NEAR if left else _FAR
    if other.is_splice:
        joint(canvas, x, y)
    words, size = fit(_plain(other), 74, 10)
    canvas.text(x + (6 if left else -6), y + 4, words, size, anchor="start" if left else "end")
