"""Can one car belong to two scopes? What is unknown never keeps two scopes apart."""

from __future__ import annotations

from typing import Literal

from builder.model.vehicle import Scope
from builder.model.words import ALL, UNKNOWN

Apart = Literal[
    "model years", "build months", "body", "market", "drive side", "trim", "option", "radio"
]
"""What can part two scopes, as a person calls it."""

_OPEN = frozenset({ALL, UNKNOWN})
"""Words that leave a list open."""


def overlap(one: Scope, other: Scope) -> bool:
    """Whether some car could belong to both scopes."""
    return not reasons_apart(one, other)


def reasons_apart(one: Scope, other: Scope) -> dict[Apart, str]:
    """Return why no car can belong to both scopes, by what parts them; empty when one could."""
    found: dict[Apart, str] = {
        "model years": _years(one, other),
        "build months": _builds(one, other),
        "body": _lists("body", one.bodies, other.bodies),
        "market": _lists("market", one.markets, other.markets),
        "drive side": _sides(one, other),
        "trim": _lists("trim", one.trims, other.trims),
        "option": _options(one, other) or _options(other, one),
        "radio": _lists("radio", one.radios, other.radios),
    }
    return {what: reason for what, reason in found.items() if reason}


def disjoint(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Whether two lists exclude each other; an empty, "all" or "unknown" list excludes nothing."""
    if not one or not other or _OPEN & {*one, *other}:
        return False
    return not set(one) & set(other)


def _lists(what: Apart, one: tuple[str, ...], other: tuple[str, ...]) -> str:
    if not disjoint(one, other):
        return ""
    return f"{what}: {', '.join(one)} against {', '.join(other)}"


def _years(one: Scope, other: Scope) -> str:
    if one.year_from <= other.year_to and other.year_from <= one.year_to:
        return ""
    return (
        f"model years: {one.year_from} to {one.year_to} "
        f"against {other.year_from} to {other.year_to}"
    )


def _builds(one: Scope, other: Scope) -> str:
    """Compare build months. A car's build month and model year differ, so they never mix."""
    if _ends_before(one, other) or _ends_before(other, one):
        return f"build months: {_months(one)} against {_months(other)}"
    return ""


def _ends_before(one: Scope, other: Scope) -> bool:
    return bool(one.build_to and other.build_from and one.build_to < other.build_from)


def _months(scope: Scope) -> str:
    return f"{scope.build_from or 'any'} to {scope.build_to or 'any'}"


def _sides(one: Scope, other: Scope) -> str:
    if "both" in (one.drive_side, other.drive_side) or one.drive_side == other.drive_side:
        return ""
    return f"drive side: {one.drive_side} against {other.drive_side}"


def _options(one: Scope, other: Scope) -> str:
    """One scope asks for options of which the other allows none."""
    if one.options_any and set(one.options_any) <= set(other.options_none):
        return f"option {' or '.join(one.options_any)}: one scope has it, the other has not"
    return ""
