"""A key that is named for a unit says which, so that a page and an editor can show it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from template_places import full, schema_of

SUFFIXES = {
    "v": "V", "ma": "mA", "a": "A", "ohm": "Ω", "w": "W", "hz": "Hz", "s": "s", "ms": "ms",
    "m": "m", "mm": "mm", "mm2": "mm²", "db": "dB", "ah": "Ah", "mohm": "MΩ", "f": "F",
}  # fmt: skip
KINDS = (
    "vehicle",
    "housing",
    "converter",
    "amplifier",
    "cable",
    "loom",
    "interface",
    "job",
    "book",
    "readings",
)
Schema = dict[str, Any]


def quantities(schema: Schema, where: str) -> Iterator[tuple[str, str, Schema]]:
    """Every key with a unit's name at its end, in the schema and what it refers to."""
    whole = full(schema)
    for key, inner in whole.get("properties", {}).items():
        suffix = key.removesuffix("_rms").rpartition("_")[2]
        if key != suffix and suffix in SUFFIXES:
            yield f"{where}.{key}", suffix, full(inner)
        yield from quantities(inner, f"{where}.{key}")
    if "items" in whole:
        yield from quantities(whole["items"], f"{where}[]")


@pytest.mark.parametrize("kind", KINDS)
def test_a_key_named_for_a_unit_states_it_and_gives_an_example(kind):
    for where, suffix, schema in quantities(schema_of(kind), kind):
        if "enum" in schema:
            continue  # a list of standard sizes, each word explained
        assert schema.get("unit") == SUFFIXES[suffix], where
        assert schema["examples"], where
