"""Which housings of a book a plug could have: by its number of cavities and its latch."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from builder.model.housing import Housing
from builder.model.words import Edge

MOST_PROPOSED = 8


def fitting_housings(
    housings: Iterable[Housing], cavities: int, latch: Edge | Literal[""] = ""
) -> list[Housing]:
    """Housings with that many cavities, those with the latch there first.

    `latch` is top, bottom, left or right as the plug is held, "" when nobody looked. Without a
    housing of that size, those nearest in size are returned.
    """
    ranked = sorted(
        housings,
        key=lambda each: (
            abs(len(each.cavities) - cavities),
            bool(latch) and each.latch != latch,
            each.id,
        ),
    )
    exact = [each for each in ranked if len(each.cavities) == cavities]
    return (exact or ranked)[:MOST_PROPOSED]


def fits(housing: Housing, cavities: int, latch: Edge | Literal[""] = "") -> bool:
    """Whether a housing has that many cavities, and its latch there where somebody looked."""
    return len(housing.cavities) == cavities and (not latch or housing.latch == latch)


def shape_of(housing: Housing) -> str:
    """A housing in one line for a person: cavities, rows, latch, face, name."""
    rows = "+".join(str(sum(cell is not None for cell in row)) for row in housing.rows)
    face = housing.seen_from.replace("_", " ")
    return (
        f"{len(housing.cavities)} cavities in rows of {rows}, "
        f"latch {housing.latch} from the {face}: {housing.name}"
    )
