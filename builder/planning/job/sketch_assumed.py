"""What the declarations of a job say that a sketch assumes where nobody said anything."""

from __future__ import annotations

from typing import Any

from builder.declaring import Field, fields_of


def assumed_keys(cls: type) -> dict[str, Any]:
    """Return the attributes of a class of a job that a sketch fills by their declarations."""
    return {each.attribute: each.spec.sketch for each in _assumed(cls)}


def assumed_words(cls: type) -> str:
    """Say the same in a line, by the labels of the keys."""
    said = [each.spec for each in _assumed(cls) if each.spec.label]
    shown = (f"{spec.label}: {spec.sketch} {spec.unit}".strip().replace("_", " ") for spec in said)
    return "; ".join(each[:1].lower() + each[1:] for each in shown)


def _assumed(cls: type) -> list[Field]:
    return [each for each in fields_of(cls) if each.spec.sketch is not None]
