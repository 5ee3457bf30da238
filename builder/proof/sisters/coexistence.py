"""Whether two lines of a record can be true of one and the same car."""

from __future__ import annotations

from builder.model.plugs import Condition, Pin


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
