"""A housing: the shell of a plug and where its cavities sit."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.words import Edge


@dataclass(frozen=True, slots=True)
class Housing:
    """A plug shell, drawn as rows of cavity names.

    `rows` are left to right as seen from `seen_from` with the latch at `latch`; None is a
    gap. `row_shift` moves each row to the right, in cavity widths. `blade_mm` is the usual
    terminal width and `sizes` the exceptions, cavity by cavity.

    Its other face is looked at with the latch at the same edge: `rows_swap` says what that does.
    Whatever turns, draws or compares faces asks it, so that a count on a drawing is a count.
    """

    id: str
    data: str
    name: str
    seen_from: str  # wire_side | mating_side
    latch: Edge
    rows: tuple[tuple[str | None, ...], ...]
    row_shift: tuple[float, ...]
    blade_mm: float
    sizes: dict[str, float]
    blocked: tuple[str, ...]
    keyed_corner: str | None
    mates_with: tuple[str, ...]
    note: str | None

    @property
    def cavities(self) -> tuple[str, ...]:
        """Every cavity name in reading order."""
        return tuple(name for row in self.rows for name in row if name is not None)

    @property
    def rows_swap(self) -> bool:
        """Whether the other face, held with the latch at the same edge, shows the rows swapped.

        With the latch at the left or right the plug is turned over top for bottom, and left and
        right stay; with the latch at the top or bottom it is turned over left for right.
        """
        return self.latch in ("left", "right")
