"""Lines of a record that claim the same thing of one and the same car."""

from __future__ import annotations

from itertools import combinations

from builder.proof.sisters.coexistence import can_coexist
from builder.rules.wiring import Site

__all__ = ["can_coexist", "clashes"]


def clashes(sites: tuple[Site, ...]) -> list[tuple[Site, Site]]:
    """Every two of these that some car has both of, in the order of the record."""
    if len(sites) < 2:
        return []
    return [two for two in combinations(sites, 2) if can_coexist(two[0].pin, two[1].pin)]
