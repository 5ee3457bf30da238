"""Which plugs are taken for each other, and which cavities lie side by side."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.housing import Housing
from builder.model.plugs import Plug
from builder.model.words import UNKNOWN
from builder.proof.faces.poses import places_of

_BESIDE = 1.2
"""How far apart two cavities of neighbouring places lie at most, in cavity widths: a meter probe
slips by one cavity, along the row or into the next one. Chosen by this project."""


def look_alike(first: Plug, second: Plug, housings: Mapping[str, Housing]) -> bool:
    """Whether two plugs have one shell, or as many cavities at the same unit."""
    if first.housing == second.housing and first.housing != UNKNOWN:
        return True
    one, other = housings.get(first.housing), housings.get(second.housing)
    if one is None or other is None or first.unit != second.unit:
        return False
    near = first.unit != "other" or first.location == second.location
    return near and len(one.cavities) == len(other.cavities)


def cavities_beside(housing: Housing, cavity: str) -> frozenset[str]:
    """Return the cavities next to this one: in its row, and straight across in the next rows."""
    spots = {
        name: (along, index) for index, row in enumerate(places_of(housing)) for along, name in row
    }
    if cavity not in spots:
        return frozenset()
    along, row = spots[cavity]
    return frozenset(
        name
        for name, (place, index) in spots.items()
        if name != cavity and abs(place - along) + abs(index - row) <= _BESIDE
    )
