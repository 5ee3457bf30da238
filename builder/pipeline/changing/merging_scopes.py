"""The scope of two records together: only where it is about no car that neither was about."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from builder.editing.merging import Difference, Step
from builder.editing.spelling import flow_text
from builder.model.words import ALL, UNKNOWN

_Scope = dict[str, Any]
_YEARS: Final = ("year_from", "year_to")
_MONTHS: Final = ("build_from", "build_to")
_LISTS: Final = ("bodies", "markets", "trims", "radios")
_SIDE: Final = "drive_side"
_ANY: Final = "options_any"
_NONE: Final = "options_none"
_DIMENSIONS: Final = (_YEARS, _MONTHS, *((key,) for key in (*_LISTS, _SIDE, _ANY, _NONE)))


def one_scope(ours: dict[str, Any], theirs: dict[str, Any]) -> tuple[list[Step], list[Difference]]:
    """Return the steps that make the first record's scope that of both, or what is to be settled.

    A scope that holds every car of the other is that of both. Two that differ in one thing only are
    added up in that. Of others the sum would claim cars that neither record is about.
    """
    mine, other = ours["scope"], theirs["scope"]
    known, told = _known(mine, other), _known(other, mine)
    wide = dict(_wide(known, told))
    apart = [keys for keys in _DIMENSIONS if _of(known, keys) != _of(told, keys)]
    holds = _all(wide) in (_all(known), _all(told)) or (len(apart) <= 1 and _meet(known, told))
    grown = [key for key in wide if _sorted(wide[key]) != _sorted(mine.get(key))]
    if holds and not any(wide[key] is None for key in grown):
        return [_step(key, mine, wide[key]) for key in grown], []
    keys = [key for keys in apart for key in keys]
    said = (flow_text({key: each[key] for key in keys if key in each}) for each in (mine, other))
    return [], [Difference("scope", *said)]


def _step(key: str, mine: _Scope, value: Any) -> Step:
    return Step("value" if key in mine else "key", ("scope", key), value)


def _known(scope: _Scope, other: _Scope) -> _Scope:
    """A scope with what it does not know as the other says it."""
    unknown = {key for key in _LISTS if UNKNOWN in scope[key]}
    return {**scope, **{key: other[key] for key in unknown}}


def _of(scope: _Scope, keys: tuple[str, ...]) -> tuple[Any, ...]:
    return tuple(_sorted(scope.get(key)) for key in keys)


def _sorted(value: Any) -> Any:
    return sorted(value) if isinstance(value, list) else value


def _all(scope: _Scope) -> list[tuple[Any, ...]]:
    return [_of(scope, keys) for keys in _DIMENSIONS]


def _meet(one: _Scope, other: _Scope) -> bool:
    """Whether no model year lies between the two."""
    first, second = sorted((each["year_from"], each["year_to"]) for each in (one, other))
    return bool(second[0] <= first[1] + 1)


def _wide(mine: _Scope, other: _Scope) -> Iterator[tuple[str, Any]]:
    """Yield each key of the narrowest scope that holds every car of both."""
    yield _YEARS[0], min(mine[_YEARS[0]], other[_YEARS[0]])
    yield _YEARS[1], max(mine[_YEARS[1]], other[_YEARS[1]])
    for key, at in zip(_MONTHS, (0, -1), strict=True):
        months = [each[key] for each in (mine, other) if key in each]
        yield key, sorted(months)[at] if len(months) == 2 else None
    for key in _LISTS:
        yield key, [ALL] if ALL in (*mine[key], *other[key]) else _together(mine[key], other[key])
    yield _SIDE, mine[_SIDE] if mine[_SIDE] == other[_SIDE] else "both"
    asked = [] if not mine[_ANY] or not other[_ANY] else _together(mine[_ANY], other[_ANY])
    yield _ANY, asked
    yield _NONE, [each for each in mine[_NONE] if each in other[_NONE]]


def _together(mine: list[str], other: list[str]) -> list[str]:
    return [*mine, *(each for each in other if each not in mine)]
