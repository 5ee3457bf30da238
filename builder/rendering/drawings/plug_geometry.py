"""Where everything on a plug's face is: shell, latch, keyed corner, cavities.

A face is laid out once as the housing record gives it and turned over for the other view. The
latch stays at its edge: `Housing.rows_swap` says whether left and right change places, or top and
bottom.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from builder.model.housing import Housing
from builder.model.words import Edge, View
from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.lettering import text_width

EDGE = 5.0  # clear space at the rim of the drawing
CAPTION = 40.0  # height of the two caption lines
LATCH_SPOT: Final = "latch"
LATCH = 15.0  # how far the latch stands off the shell
LEAVING = 13.0  # how far a wire is drawn beyond the shell
LATCH_LONG = 56.0
WALL = 9.0  # shell outline to cavities
TALL = 30.0  # height of the smallest cavity
ROW_GAP = 5.0
PITCHES = ((10.5, 31.0), (14.5, 24.0), (float("inf"), 20.0))  # columns at most, cavity pitch
NARROWEST = 236.0  # room for the caption
GROWTH_MAX = 1.7  # tallest blade against the smallest

_TURNED = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


@dataclass(frozen=True, slots=True, eq=False)  # compared by identity: cheap cache keys
class Cell:
    """One cavity as drawn: x, y is its top left corner, in view-box units."""

    name: str
    row: int
    x: float
    y: float
    w: float
    h: float


@dataclass(frozen=True, slots=True, eq=False)  # compared by identity: cheap cache keys
class Face:
    """One face of a housing, ready to draw. All lengths in view-box units.

    `lettering` is the font size of the cavity names.
    """

    width: float
    height: float
    shell: Box
    latch: Edge  # the same on both faces
    latch_box: Box
    keyed_corner: str | None
    cells: tuple[Cell, ...]  # in the order of the record, the same on both faces
    lettering: float


def corner_over(corner: str, rows_swap: bool) -> str:
    """Return where a corner ("top_left" ...) lies on the other face, see `Housing.rows_swap`."""
    upper, _, side = corner.partition("_")
    return f"{_TURNED[upper]}_{side}" if rows_swap else f"{upper}_{_TURNED[side]}"


def face_id(key: str, view: View) -> str:
    """Return the id of one drawing of a plug, whose ids start with `key`."""
    return f"{key}-{view[0]}"


def face_of(housing: Housing, view: View) -> Face:
    """Return the geometry of `housing` in `view`; computed once for each shape of shell."""
    seen, other = _both_faces(
        housing.rows,
        housing.row_shift,
        (housing.blade_mm, tuple(housing.blades_mm.items())),
        (housing.latch, housing.keyed_corner),
        housing.rows_swap,
    )
    return seen if view == housing.seen_from else other


def box_of(face: Face, spot: str) -> Box | None:
    """Return the box of a place on the face: "latch", a corner, or a cavity name after ":"."""
    if spot == LATCH_SPOT:
        return face.latch_box
    if spot.startswith(":"):
        found = (c for c in face.cells if c.name == spot[1:])
        return next(((c.x, c.y, c.w, c.h) for c in found), None)
    x, y, w, h = face.shell
    return (
        x + w - 14 if spot.endswith("right") else x - 2,
        y + h - 14 if spot.startswith("bottom") else y - 2,
        16,
        16,
    )


Rows = tuple[tuple[str | None, ...], ...]
Blades = tuple[float, tuple[tuple[str, float], ...]]  # usual mm, and the exceptions
Marks = tuple[Edge, str | None]  # latch, keyed corner


@lru_cache(maxsize=2048)
def _both_faces(
    rows: Rows, row_shift: tuple[float, ...], blades: Blades, marks: Marks, rows_swap: bool
) -> tuple[Face, Face]:
    """Return the face as given and the other one."""
    given = _laid_out(rows, row_shifts(rows, row_shift), blades, marks)
    other = _top_for_bottom(given, len(rows)) if rows_swap else _left_for_right(given)
    corner = given.keyed_corner
    return given, replace(other, keyed_corner=corner and corner_over(corner, rows_swap))


def _left_for_right(face: Face) -> Face:
    """Turn a face over whose latch, at the top or bottom, lies in the middle of its width."""
    return replace(
        face, cells=tuple(replace(cell, x=face.width - cell.x - cell.w) for cell in face.cells)
    )


def _top_for_bottom(face: Face, rows: int) -> Face:
    """Turn a face over whose latch, at the left or right, lies in the middle of its height."""
    down = 2 * face.shell[1] + face.shell[3]
    cells = (replace(c, row=rows - 1 - c.row, y=down - c.y - c.h) for c in face.cells)
    return replace(face, cells=tuple(cells))


def row_shifts(rows: Rows, row_shift: tuple[float, ...]) -> tuple[float, ...]:
    """Return one shift a row, in cavity widths, the least of them 0."""
    shifts = [row_shift[at] if at < len(row_shift) else 0.0 for at in range(len(rows))]
    return tuple(shift - min(shifts) for shift in shifts)


def _laid_out(rows: Rows, shifts: tuple[float, ...], blades: Blades, marks: Marks) -> Face:
    latch, keyed_corner = marks
    columns = max(shift + len(row) for shift, row in zip(shifts, rows, strict=True))
    pitch = next(pitch for most, pitch in PITCHES if columns <= most)
    growth = _growths(rows, *blades)
    heights = [max([growth[n] for n in row if n is not None], default=1.0) * TALL for row in rows]
    inner = (columns * pitch, sum(heights) + ROW_GAP * len(rows))
    shell, latch_box, size = _shell(inner, latch)
    cells: list[Cell] = []
    top = shell[1] + WALL + ROW_GAP / 2
    for at, row in enumerate(rows):
        corner = (shell[0] + WALL + shifts[at] * pitch, top + heights[at] / 2)
        cells += _row_cells(at, row, corner, pitch, growth)
        top += heights[at] + ROW_GAP
    lettering = min(map(_lettering, cells))
    return Face(*size, shell, latch, latch_box, keyed_corner, tuple(cells), lettering)


def _growths(rows: Rows, usual_mm: float, sizes: tuple[tuple[str, float], ...]) -> dict[str, float]:
    """Return for each cavity how much taller than the smallest it is drawn (1 to 1.7)."""
    widths = dict.fromkeys((n for row in rows for n in row if n is not None), usual_mm)
    widths.update((name, mm) for name, mm in sizes if name in widths)
    least = min(widths.values(), default=1.0)
    return {n: min(GROWTH_MAX, 0.7 + 0.3 * mm / least) for n, mm in widths.items()}


def _row_cells(
    at: int, row: tuple[str | None, ...], start: Point, pitch: float, growth: dict[str, float]
) -> list[Cell]:
    """Return the cavities of one row; `start` is its left end, halfway up."""
    cells = []
    for column, name in enumerate(row):
        if name is not None:
            w = min(pitch - 3, 0.81 * pitch * (1 + 0.4 * (growth[name] - 1)))
            h = TALL * growth[name]
            centre = start[0] + (column + 0.5) * pitch
            cells.append(Cell(name, at, centre - w / 2, start[1] - h / 2, w, h))
    return cells


def _lettering(cell: Cell) -> float:
    return min(13.0, 13 * (cell.w - 2) / text_width(cell.name, 13))


def _shell(inner: Point, latch: Edge) -> tuple[Box, Box, Point]:
    """Return shell, latch and size of the drawing for the given inner width and height."""
    w, h = inner[0] + 2 * WALL, inner[1] + 2 * WALL
    beside = LATCH if latch in ("left", "right") else 0.0
    width = max(NARROWEST, w + beside + 2 * EDGE)
    x = (width - w - beside) / 2 + (LATCH if latch == "left" else 0)
    y = CAPTION + LATCH + 2  # the wires of the top row take the room that a latch takes
    long_across, long_up = min(LATCH_LONG, w - 16), min(LATCH_LONG, h - 4)
    latch_box = {
        "top": (x + (w - long_across) / 2, y - LATCH, long_across, LATCH),
        "bottom": (x + (w - long_across) / 2, y + h, long_across, LATCH),
        "left": (x - LATCH, y + (h - long_up) / 2, LATCH, long_up),
        "right": (x + w, y + (h - long_up) / 2, LATCH, long_up),
    }[latch]
    height = y + h + LATCH + EDGE
    return (x, y, w, h), latch_box, (width, height)
