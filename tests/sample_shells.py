"""Shells to turn over, and whether a drawing of the other face shows what a count there takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product

from builder.model.housing import BladeSize, Housing
from builder.model.words import Edge
from builder.proof.faces.poses import mirror

Cells = tuple[tuple[str | None, ...], ...]
Places = Mapping[str, tuple[float, float]]
"""Cavities as (place along the row in cavity widths, row from the top in whole or half rows)."""

EDGES: tuple[Edge, ...] = ("top", "bottom", "left", "right")
ROWS: tuple[tuple[Cells, tuple[float, ...]], ...] = (
    ((("1", "2", "3", "4"), ("5", "6", "7", "8")), ()),
    ((("1", "2", "3", "4", "5"), ("6", "7", "8", "9", "10")), (0.0, 0.5)),
    ((("1", "2", "3"), ("4", None, "5"), ("6", "7", "8")), (0.0, 0.0, 0.0)),
    ((("1", "2", "3", "4"), ("5", "6", "7")), (0.0, 0.5)),
    ((("1", "2", None, "3"), ("4", None, "5", "6")), ()),
    ((("A1", "A2"), ("B1", "B2"), ("C1", "C2")), (1.5, 1.5, 1.5)),
    ((("1",), ("2",), ("3",)), ()),
    ((("1",),), ()),
)


def shell(
    rows: Cells, shift: tuple[float, ...], latch: Edge, seen_from: str = "wire_side"
) -> Housing:
    """A shell whose first cavity takes a big blade, with a cut corner."""
    first = next(name for row in rows for name in row if name is not None)
    return Housing(
        id=f"shell-{latch}", data="invented", name="shell", seen_from=seen_from, latch=latch,
        rows=rows, row_shift=shift, blade_mm=1.5, keyed_corner="top_right", blocked=(),
        sizes=(BladeSize(cavities=(first,), blade_mm=6.3),),
    )  # fmt: skip


SAMPLES = [
    shell(rows, shift, latch, seen_from)
    for (rows, shift), latch, seen_from in product(ROWS, EDGES, ("wire_side", "mating_side"))
]


def shows_what_is_counted(
    housing: Housing, own: Places, other: Places, *, within: float = 0.05
) -> int:
    """Assert that each place of the other face holds the cavity that a count there is turned to.

    Rows lie on their image as a whole, slid by 0.6 widths at most: staggered rows move by a half.

    Args:
        housing: The shell.
        own: Where its cavities are drawn on the face that it was typed from.
        other: Where they are drawn on the other one.
        within: How exactly, in cavity widths.

    Returns:
        How many cavities were compared.
    """
    own, other, images = from_the_left(own), from_the_left(other), mirror(housing)
    for row in {down for _, down in own.values()}:
        named = [name for name, (_, down) in own.items() if down == row and name in images]
        slides = []
        for name in named:
            along, down = other[images[name]]
            assert down == row, (housing.id, name, images[name], "another row")
            slides.append(along - own[name][0])
        assert all(abs(slide) <= 0.6 + within for slide in slides), (housing.id, named, slides)
        assert max(slides, default=0) - min(slides, default=0) <= 2 * within, (housing.id, slides)
        assert_counts(housing, row, (own, other), images)
    return len(images)


def assert_counts(
    housing: Housing, row: float, faces: tuple[Places, Places], images: Mapping[str, str]
) -> None:
    """In rows without gaps the Nth from the left is taken for the Nth from the left."""
    counted, there = (in_row(face, row) for face in faces)
    whole = all(None not in cells for cells in housing.rows)
    if whole and all(name in images for name in counted) and len(counted) == len(there):
        assert [images[name] for name in counted] == there, housing.id


def in_row(face: Places, row: float) -> Sequence[str]:
    """The cavities of a row from left to right."""
    return sorted((name for name in face if face[name][1] == row), key=lambda name: face[name][0])


def from_the_left(face: Places) -> Places:
    """The places measured from the leftmost cavity, rows numbered from the top."""
    least = min((along for along, _ in face.values()), default=0.0)
    rows = sorted({down for _, down in face.values()})
    return {name: (along - least, rows.index(down)) for name, (along, down) in face.items()}


def gaps_only(rows: Cells) -> bool:
    """Whether a row draws no cavity at all."""
    return any(all(name is None for name in row) for row in rows)
