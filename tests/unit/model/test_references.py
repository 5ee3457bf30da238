"""The places where a record names another are those that the schemas have."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from builder.model.references import EACH, REFERENCES, references_in
from builder.schema_check.schemas import read_schema, resolve

OWN_OR_INSIDE = {
    ("id",),
    ("sessions", EACH, "id"),
    ("recordings", EACH, "lead", "id"),
}
"""Names that a record gives, those of its own sessions and of leads of a shop: no table renames
them."""


def named_in(schema: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every place of a schema that holds an id."""
    if schema.get("$ref", "").endswith("/$defs/id"):
        yield path
        return
    whole = resolve(schema)
    for key, inner in whole.get("properties", {}).items():
        yield from named_in(inner, (*path, key))
    if isinstance(whole.get("items"), dict):
        yield from named_in(whole["items"], (*path, EACH))


@pytest.mark.parametrize("kind", REFERENCES)
def test_every_id_in_a_schema_is_a_row(kind: str) -> None:
    places = {path for path in named_in(read_schema(kind)) if path[-1] != "session"}
    assert places - OWN_OR_INSIDE == {steps for steps, _ in REFERENCES[kind]}


def test_names_come_with_their_places() -> None:
    data = {"plugs": [{"housing": "h-1", "look_alikes": [{"housing": "h-2"}, {"plug": "B"}]}]}
    assert [(one.path, one.kind, one.name) for one in references_in("vehicle", data)] == [
        (("plugs", 0, "housing"), "housing", "h-1"),
        (("plugs", 0, "look_alikes", 0, "housing"), "housing", "h-2"),
    ]
    replaced = {"replaces": {"id": "c-1"}}
    assert list(references_in("cable", replaced)) == [(("replaces", "id"), "cable", "c-1")]
