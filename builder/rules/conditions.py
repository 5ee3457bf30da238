"""Whether two lines of a record can be true of one and the same car."""

from __future__ import annotations

from itertools import combinations

from builder.model.vehicle import Condition, Pin
from builder.rules.wiring import Site


def can_coexist(first: Pin, second: Pin) -> bool:
    """Whether some car of the scope has both lines; lines without `only_if` hold for all."""
    if first.only_if is None or second.only_if is None:
        return True
    return not _disjoint(first.only_if, second.only_if)


def _disjoint(first: Condition, second: Condition) -> bool:
    if first.trims and second.trims and not set(first.trims) & set(second.trims):
        return True
    return _excludes(first, second) or _excludes(second, first)


def _excludes(first: Condition, second: Condition) -> bool:
    """Whether what `first` asks for is exactly what `second` rules out."""
    return bool(first.options_any) and set(first.options_any) <= set(second.options_none)


def clashes(sites: tuple[Site, ...]) -> list[tuple[Site, Site]]:
    """Every two of these that some car has both of, in the order of the record."""
    if len(sites) < 2:
        return []
    return [two for two in combinations(sites, 2) if can_coexist(two[0].pin, two[1].pin)]
