"""An answer as plain data for JSON: every key carries its unit, nothing is rounded."""

from __future__ import annotations

from typing import Any

from builder.declaring import fields_of
from builder.planning.plan import Plan


def plan_as_json(plan: Plan) -> dict[str, Any]:
    """Return `plan` as mappings, lists, text, numbers and None."""
    return as_json(plan)


def as_json(answer: object) -> dict[str, Any]:
    """Return the declared keys of an answer, those of its parts too.

    What is not declared is left out: a data path points into a record and not into the car.
    """
    return {each.key: _plain(getattr(answer, each.attribute)) for each in fields_of(type(answer))}


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return value if value is None or isinstance(value, str | int | float) else as_json(value)
