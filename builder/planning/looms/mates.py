"""Whether two housings go into each other: what their records say, and what their faces show."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from builder.model.housing import Housing, KeyedCorner
from builder.model.words import UNKNOWN, Edge, View

MatesSaid = Literal["yes", "no", "not recorded"]
"""What `mates_with` of two housings says of the pair."""

_Grid = tuple[tuple[str | None, ...], ...]
_EDGES: tuple[Edge, ...] = ("top", "right", "bottom", "left")
_CORNERS: tuple[KeyedCorner, ...] = ("top_left", "top_right", "bottom_right", "bottom_left")
"""Clockwise, so that a quarter turn is a step."""


class _Face(NamedTuple):
    """A face held with the latch at the top."""

    rows: _Grid
    corner: KeyedCorner | None


def mates_said(first: Housing, second: Housing) -> MatesSaid:
    """Return whether one of two housings says that it mates with the other.

    Whoever lists its mates and leaves the other out says no: a plug and a plug of the same housing
    are of one gender, and do not go into each other. Who adds unknown has not tried them all.
    """
    if second.id in first.mates_with or first.id in second.mates_with:
        return "yes"
    lists = [each.mates_with for each in (first, second) if each.mates_with]
    return "no" if any(UNKNOWN not in each for each in lists) else "not recorded"


def mismatches(first: Housing, second: Housing) -> Iterator[str]:
    """Yield what keeps two housings from going into each other, each as a clause.

    With both latches together, the open face of the one is seen as the wire side of the other.
    """
    one, other = _face(first, "mating_side"), _face(second, "wire_side")
    if len(first.cavities) != len(second.cavities):
        yield f"{first.id} has {len(first.cavities)} cavities and {second.id} {_count(second)}"
    elif faced := _faced_otherwise(one.rows, other.rows):
        yield f"with the latches together {faced}"
    if one.corner and other.corner and one.corner != other.corner:
        yield "their keyed corners do not meet"
    if first.contacts and first.contacts == second.contacts:
        yield f"both have {first.contacts}"
    yield from _blades(first, second)


def _count(housing: Housing) -> int:
    return len(housing.cavities)


def _faced_otherwise(one: _Grid, other: _Grid) -> str:
    """The first cavity that another one faces, "" when each faces its own number."""
    if tuple(map(len, one)) != tuple(map(len, other)):
        return f"rows of {_shape(one)} face rows of {_shape(other)}"
    pairs = (pair for rows in zip(one, other, strict=True) for pair in zip(*rows, strict=True))
    wrong = next(((a, b) for a, b in pairs if a != b), None)
    return f"{_name(wrong[0])} faces {_name(wrong[1])}" if wrong else ""


def _shape(grid: _Grid) -> str:
    return "/".join(str(len(row)) for row in grid)


def _name(cavity: str | None) -> str:
    return f"cavity {cavity}" if cavity else "a gap"


def _blades(first: Housing, second: Housing) -> Iterator[str]:
    for cavity in first.cavities:
        sizes = [each.blades_mm.get(cavity, each.blade_mm) for each in (first, second)]
        if cavity in second.cavities and sizes[0] != sizes[1]:
            yield f"the blades of cavity {cavity} are {sizes[0]:g} mm and {sizes[1]:g} mm wide"
            return


def _face(housing: Housing, view: View) -> _Face:
    rows, corner = _even(housing.rows), housing.keyed_corner
    if housing.seen_from != view:
        rows, corner = _turned_over(housing)
    steps = -_EDGES.index(housing.latch) % 4
    for _ in range(steps):
        rows = _quarter(rows)
    return _Face(rows, _CORNERS[(_CORNERS.index(corner) + steps) % 4] if corner else None)


def _turned_over(housing: Housing) -> tuple[_Grid, KeyedCorner | None]:
    """The other face, with the latch at the same edge: `rows_swap` says what that does."""
    mirrored: Sequence[KeyedCorner]
    if housing.rows_swap:
        rows, mirrored = _even(housing.rows)[::-1], _CORNERS[::-1]
    else:
        rows = tuple(row[::-1] for row in _even(housing.rows))
        mirrored = (_CORNERS[1], _CORNERS[0], _CORNERS[3], _CORNERS[2])
    corner = housing.keyed_corner
    return rows, mirrored[_CORNERS.index(corner)] if corner else None


def _quarter(rows: _Grid) -> _Grid:
    """A face turned clockwise by a quarter."""
    return tuple(zip(*rows[::-1], strict=True))


def _even(rows: _Grid) -> _Grid:
    """Rows of one length: a short row ends in gaps."""
    widest = max(map(len, rows))
    return tuple((*row, *[None] * (widest - len(row))) for row in rows)
