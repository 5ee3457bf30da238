"""The ends of a plug's wires, drawn on the face where they enter."""

from __future__ import annotations

from builder.model.wire import Wire
from builder.rendering.drawings.canvas import number
from builder.rendering.drawings.plug_geometry import LEAVING, Cell, Face
from builder.rendering.drawings.wire_strokes import wire_strokes


def leaving_wire(face: Face, cell: Cell, wire: Wire | None) -> str:
    """Return the wire of a cavity as it leaves the housing.

    The upper half of the rows leaves upwards, the lower half downwards; a row between others
    passes beside the cavities. A wire whose colour nobody recorded is a hollow one.
    """
    return f'<g class="lb-leaving">{wire_strokes(_way(face, cell), wire)}</g>'


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
