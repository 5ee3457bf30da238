"""A line to type for a missing figure asks for it: it shows none that somebody could copy."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from builder.model.words import SchemaKind
from builder.schema_check.key_wording import example_line
from builder.schema_check.schemas import resolve, schema_at

KINDS: tuple[SchemaKind, ...] = ("vehicle", "job", "sheet", "readings")


def keys(schema: Any, depth: int = 0) -> Iterator[tuple[str, Any]]:
    schema = resolve(schema)
    for key, inner in schema.get("properties", {}).items():
        if isinstance(inner, dict):
            yield key, {**resolve(inner), **inner}
            yield from keys(inner, depth + 1) if depth < 6 else ()
    if isinstance(schema.get("items"), dict):
        yield from keys(schema["items"], depth + 1)


def test_no_line_shows_a_figure_with_a_unit() -> None:
    found = [(k, s) for kind in KINDS for k, s in keys(schema_at(kind, ())) if "unit" in s]
    assert {"minutes", "battery_v", "tone_hz"} <= {key for key, _ in found}
    lines = [example_line(key, {**schema, "description": ""}) for key, schema in found]
    assert [line for line in lines if re.search(r": -?\d", line)] == []
