"""Lines with right angles: their corners rounded, names cut out of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import copysign

from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.path_data import PathData
from builder.rendering.drawings.wiring.scene import Run

CORNER = 7.0
Segment = tuple[Point, Point]


def level_and_upright(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the points without those that lie on the way from one neighbour to the other."""
    kept: list[Point] = []
    for point in points:
        if kept and kept[-1] == point:
            continue
        while len(kept) > 1 and _straight(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple(kept)


def _straight(a: Point, b: Point, c: Point) -> bool:
    return a[0] == b[0] == c[0] or a[1] == b[1] == c[1]


def pieces_of(run: Run) -> list[tuple[Point, ...]]:
    """Return what is left of a run beside the names that interrupt it."""
    pieces: list[list[Point]] = [[run.points[0]]]
    for start, end in pairwise(run.points):
        for gap in _gaps(start, end, run.cuts):
            pieces[-1].append(gap[0])
            pieces.append([gap[1]])
        pieces[-1].append(end)
    return [tuple(piece) for piece in pieces if len(set(piece)) > 1]


def _gaps(start: Point, end: Point, cuts: Iterable[Box]) -> list[Segment]:
    """Return the parts of a segment that lie in boxes, in the order of the way."""
    axis = 0 if start[1] == end[1] else 1
    low, high = sorted((start[axis], end[axis]))
    found = []
    for box in cuts:
        near, far = box[axis], box[axis] + box[axis + 2]
        across, wide = box[1 - axis], box[3 - axis]
        if across <= start[1 - axis] <= across + wide and low < far and near < high:
            found.append((max(low, near), min(high, far)))
    forward = start[axis] < end[axis]
    ends = [(one, other) if forward else (other, one) for one, other in sorted(found)]
    gaps = [(_on(start, axis, one), _on(start, axis, other)) for one, other in ends]
    return gaps if forward else gaps[::-1]


def _on(start: Point, axis: int, value: float) -> Point:
    return (value, start[1]) if axis == 0 else (start[0], value)


def rounded(pieces: Iterable[Sequence[Point]]) -> str:
    """Return path data of lines one behind the other, their corners rounded."""
    drawn = PathData()
    for points in pieces:
        drawn.move(points[0])
        at_last = points[0]
        for before, at, after in zip(points, points[1:], points[2:], strict=False):
            reach = min(CORNER, _length(before, at) / 2, _length(at, after) / 2)
            near, far = _towards(at, before, reach), _towards(at, after, reach)
            if near != at_last:
                drawn.line(near)
            drawn.corner(at, far)
            at_last = far
        if points[-1] != at_last:
            drawn.line(points[-1])
    return str(drawn)


def gaps_of(run: Run) -> list[Segment]:
    """Return the stretches of a run that its names take."""
    return [gap for start, end in pairwise(run.points) for gap in _gaps(start, end, run.cuts)]


def _length(a: Point, b: Point) -> float:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _towards(at: Point, to: Point, reach: float) -> Point:
    dx, dy = to[0] - at[0], to[1] - at[1]
    return (
        at[0] + (copysign(reach, dx) if dx else 0.0),
        at[1] + (copysign(reach, dy) if dy else 0.0),
    )
