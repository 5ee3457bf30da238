"""Both faces of a plug in plain text, side by side: what a terminal can draw.

The cavities that the text speaks of stand in brackets. Rows slide as the shell's do. Both faces
are held with the latch at the same edge (`Housing.rows_swap`): what stands in one place of the two
is what a count from the other face takes for each other.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from builder.model.housing import Housing
from builder.model.names import FACE_NAMES
from builder.model.words import Face, View
from builder.proof.faces.poses import Rows, places_of

_FACES: tuple[View, View] = ("wire_side", "mating_side")
_GAP = "     "


class _Face(NamedTuple):
    """One face: its title, where the latch is, and its rows as text."""

    title: str
    latch: str
    rows: tuple[str, ...]


def both_faces(housing: Housing, marked: Collection[str] = ()) -> tuple[str, ...]:
    """Return the lines of both faces, the wires entering at the left."""
    own, other = _FACES
    if housing.seen_from != "wire_side":
        own, other = other, own
    rows = places_of(housing)
    faces = {
        own: _face(own, housing.latch, rows, marked),
        other: _face(other, housing.latch, _turned_over(rows, housing), marked),
    }
    left, right = (faces[face] for face in _FACES)
    heads = [(left.title, right.title), (left.latch, right.latch)]
    columns = heads + list(zip(left.rows, right.rows, strict=True))
    width = max(len(one) for one, _ in columns)
    return tuple(f"{one.ljust(width)}{_GAP}{two}".rstrip() for one, two in columns)


def _turned_over(rows: Rows, housing: Housing) -> Rows:
    """The rows as the other face shows them: left for right, or top for bottom by the latch."""
    if housing.rows_swap:
        return tuple(reversed(rows))
    span = [place for row in rows for place, _ in row]
    total = min(span, default=0.0) + max(span, default=0.0)
    return tuple(tuple((total - place, name) for place, name in reversed(row)) for row in rows)


def _face(face: Face, latch: str, rows: Rows, marked: Collection[str]) -> _Face:
    width = max((len(name) for row in rows for _, name in row), default=1) + 3
    start = min((place for row in rows for place, _ in row), default=0.0)
    drawn = tuple(_row(row, start, width, marked) for row in rows)
    return _Face(FACE_NAMES[face], f"latch at the {latch}", drawn)


def _row(
    row: tuple[tuple[float, str], ...], start: float, width: int, marked: Collection[str]
) -> str:
    """The cavities of a row, each in the middle of its place."""
    text = ""
    for place, name in row:
        cell = f"[{name}]" if name in marked else f" {name} "
        text = text.ljust(round((place - start) * width)) + cell.center(width)
    return text.rstrip()
