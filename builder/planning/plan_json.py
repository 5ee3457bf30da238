"""A plan as plain data for JSON: every key carries its unit, nothing is rounded."""

from __future__ import annotations

from dataclasses import fields
from typing import Any, Final

from builder.planning.plan import Plan

_PATH: Final = "path"
_LISTS = ("because", "feeds", "insulate", "ladder", "levels", "tests", "refusals", "alternatives")


def plan_as_json(plan: Plan) -> dict[str, Any]:
    """Return `plan` as mappings, lists, text, numbers and None.

    Keys are the names of the plan's fields; data paths are left out, since they point into a
    record and not into the car.
    """
    data: dict[str, Any] = {
        "kind": plan.kind,
        "vehicle": plan.vehicle,
        "converter": plan.converter,
        "purpose": plan.purpose,
        "grade": plan.grade,
        "turn_on": _as_mapping(plan.turn_on),
        "losses": list(plan.losses),
    }
    for name in _LISTS:
        data[name] = [_as_mapping(item) for item in getattr(plan, name)]
    return data


def _as_mapping(item: Any) -> dict[str, Any]:
    return {name: getattr(item, name) for name in field_names(item)}


def field_names(item: Any) -> list[str]:
    """Return the fields of a dataclass that are shown: all but its place in a record."""
    return [field.name for field in fields(item) if field.name != _PATH]
