"""A plug as it stands in the wiring picture: its wires side, and where each wire leaves it.

A wire leaves upwards or downwards, over the housing and between the cavities of other rows, and
then bends to the right once. Of those that leave upwards the rightmost turns lowest, of those that
leave downwards highest: so no wire of a plug crosses another.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import Literal

from builder.model.housing import Housing
from builder.model.words import Edge
from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.plug_geometry import Cell, face_of

Way = Literal["up", "down"]

WIDEST = 280.0  # of a housing in the picture
WIDEST_PITCH = 26.0
BESIDE_LOOMS = 21.5  # the same where a loom's own wires take room on the other side
FLAT = 0.8  # rows stand nearer than on the plug's own drawing: its names need no pattern below
CAVITY_SHARE = 0.58  # of the pitch; the rest is room for a wire between two
CLEAR = 4.5  # from the middle of a wire to a cavity it passes, or to another wire
PLAIN_PITCH, PLAIN_ROW = 26.0, 30.0


@dataclass(frozen=True, slots=True)
class Cavity:
    """One cavity: its middle, from the top left of the housing."""

    name: str
    row: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class PlugShape:
    """The housing of a plug from its wires side, without a place yet."""

    width: float
    height: float
    cavity: Point  # width and height of one
    pitch: float
    latch: Edge | None
    corner: str | None  # which one is cut
    cavities: tuple[Cavity, ...]

    def of(self, name: str) -> Cavity:
        """Return a cavity.

        Raises:
            StopIteration: there is none of that name.
        """
        return next(each for each in self.cavities if each.name == name)

    @property
    def rows(self) -> tuple[int, ...]:
        """The rows from top to bottom."""
        return tuple(sorted({each.row for each in self.cavities}))


@dataclass(frozen=True, slots=True)
class Exit:
    """Where the wire of a cavity leaves the housing."""

    cavity: str
    way: Way
    x: float  # from the left of the housing


def shape_of(
    housing: Housing | None, used: Iterable[str], widest_pitch: float = WIDEST_PITCH
) -> PlugShape:
    """Return a housing's wires side; one that is not on the shelf as a row of what is used."""
    if housing is None:
        return _plain(tuple(used))
    face = face_of(housing, "wire_side")
    left, top, wide, high = face.shell
    scale = min(1.0, WIDEST / wide, widest_pitch / _pitch(face.cells))
    cells = tuple(
        Cavity(c.name, c.row, (c.x + c.w / 2 - left) * scale, (c.y + c.h / 2 - top) * FLAT)
        for c in face.cells
    )
    pitch = _pitch(cells)
    least = min(c.h for c in face.cells) * FLAT
    return PlugShape(wide * scale, high * FLAT, (pitch * CAVITY_SHARE, least - 3), pitch,
                     face.latch, face.keyed_corner, cells)  # fmt: skip


def _pitch(cells: Sequence[Cavity | Cell]) -> float:
    """The nearest that two cavities of a row stand."""
    gaps = [
        b.x - a.x
        for row in {cell.row for cell in cells}
        for a, b in _neighbours(sorted((c for c in cells if c.row == row), key=lambda c: c.x))
    ]
    return min(gaps, default=PLAIN_PITCH)


def _neighbours(cells: list[Cavity | Cell]) -> Iterable[tuple[Cavity | Cell, Cavity | Cell]]:
    return pairwise(cells)


def _plain(used: tuple[str, ...]) -> PlugShape:
    cells = tuple(
        Cavity(name, 0, PLAIN_PITCH * (at + 1), PLAIN_ROW / 2 + 4) for at, name in enumerate(used)
    )
    width = PLAIN_PITCH * (len(used) + 1)
    size = (PLAIN_PITCH * CAVITY_SHARE, 20.0)
    return PlugShape(width, PLAIN_ROW + 8, size, PLAIN_PITCH, None, None, cells)


def exits(shape: PlugShape, ways: Mapping[str, Way]) -> tuple[Exit, ...] | None:
    """Return where each used cavity's wire leaves, or None where two would lie on each other."""
    found: list[Exit] = []
    for name in sorted(ways, key=lambda each: (shape.of(each).x, shape.of(each).row)):
        taken = [each.x for each in found if each.way == ways[name]]
        x = _free(shape, shape.of(name), ways[name], taken)
        if x is None:
            return None
        found.append(Exit(name, ways[name], x))
    return tuple(found)


def _free(shape: PlugShape, cavity: Cavity, way: Way, taken: list[float]) -> float | None:
    """Return a way past the rows between a cavity and the edge: straight, or beside it."""
    passed = [
        each for each in shape.cavities
        if (each.row < cavity.row if way == "up" else each.row > cavity.row)
    ]  # fmt: skip
    half, wide = shape.pitch / 2, shape.cavity[0] / 2
    for x in (cavity.x, cavity.x + half, cavity.x - half):
        over = all(abs(x - each.x) >= wide + CLEAR - 1.5 for each in passed)
        if over and all(abs(x - each) >= 2 * CLEAR for each in taken):
            return x
    return None


def choices(shape: PlugShape, names: Iterable[str], apart: Iterable[str]) -> list[dict[str, Way]]:
    """Return every way the rows may leave; those named in `apart` may leave by themselves."""
    alone = set(apart)
    together = [name for name in names if name not in alone]
    groups = [[n for n in together if shape.of(n).row == row] for row in shape.rows]
    groups = [group for group in groups if group] + [[name] for name in sorted(alone)]
    ways: tuple[Way, ...] = ("up", "down")
    return [
        {name: way for group, way in zip(groups, chosen, strict=True) for name in group}
        for chosen in product(ways, repeat=len(groups))
    ]


def in_order(found: Iterable[Exit], way: Way) -> list[Exit]:
    """Return those that leave one way, from the highest lane to the lowest."""
    return sorted((each for each in found if each.way == way), key=lambda each: each.x,
                  reverse=way == "down")  # fmt: skip


def latch_box(shape: PlugShape, x: float, y: float) -> Box | None:
    """Return the latch of a housing whose top left is at (x, y)."""
    if shape.latch is None:
        return None
    wide, high = min(52.0, shape.width / 3), 8.0
    middle = x + (shape.width - wide) / 2
    tall = min(52.0, shape.height / 2)
    beside = y + (shape.height - tall) / 2
    return {
        "top": (middle, y - high, wide, high),
        "bottom": (middle, y + shape.height, wide, high),
        "left": (x - high, beside, high, tall),
        "right": (x + shape.width, beside, high, tall),
    }[shape.latch]
