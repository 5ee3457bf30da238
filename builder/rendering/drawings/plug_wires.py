"""The ends of a plug's wires, drawn on the face where they enter."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.wire import Wire
from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.plug_geometry import LEAVING, Cell, Face
from builder.rendering.drawings.wire_strokes import Stroke, along, wire_strokes


def leaving_wires(face: Face, wires: Iterable[tuple[Cell, Wire | None]]) -> str:
    """Return the wires of cavities as they leave the housing.

    The upper half of the rows leaves upwards, the lower half downwards; a row between others
    passes beside the cavities. A wire whose colour nobody recorded is a hollow one. None crosses
    another, so that those of one colour are one path.
    """
    layers: list[dict[Stroke, str]] = [{}, {}, {}]  # cases, colours, stripes
    for cell, wire in wires:
        way = _way(face, cell)
        for layer, stroke in zip(layers, wire_strokes(wire), strict=False):
            layer[stroke] = layer.get(stroke, "") + way
    drawn = (along(d, [stroke]) for layer in layers for stroke, d in layer.items())
    return f'<g class="lb-leaving">{"".join(drawn)}</g>'


def _way(face: Face, cell: Cell) -> str:
    """Return the path from the cavity to clear of the shell."""
    last = max(other.row for other in face.cells)
    up = 2 * cell.row <= last
    _, top, _, height = face.shell
    end = top - LEAVING if up else top + height + LEAVING
    if cell.row in (0, last):
        start = cell.y if up else cell.y + cell.h
        return f"M{number(cell.x + cell.w / 2)} {number(start)}V{number(end)}"
    beside = cell.x + cell.w + 1.5
    return f"M{number(beside - 3)} {number(cell.y + cell.h / 2)}H{number(beside)}V{number(end)}"
